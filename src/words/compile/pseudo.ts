/** The pseudo-language: English that is 40 % longer, with accents and in brackets, to try layouts with. */
import { TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import type { ReadMessage } from './message.ts';

const ACCENTED: Readonly<Record<string, string>> = {
  a: 'á', b: 'ƀ', c: 'ç', d: 'ð', e: 'é', f: 'ƒ', g: 'ğ', h: 'ĥ', i: 'î', j: 'ĵ', k: 'ķ', l: 'ļ', m: 'ɱ',
  n: 'ñ', o: 'ö', p: 'þ', q: 'ǫ', r: 'ŕ', s: 'š', t: 'ţ', u: 'û', v: 'ṽ', w: 'ŵ', x: 'ẋ', y: 'ý', z: 'ž',
  A: 'Å', B: 'Ɓ', C: 'Ç', D: 'Ð', E: 'É', F: 'Ƒ', G: 'Ğ', H: 'Ĥ', I: 'Î', J: 'Ĵ', K: 'Ķ', L: 'Ļ', M: 'Ɱ',
  N: 'Ñ', O: 'Ö', P: 'Þ', Q: 'Ǫ', R: 'Ŕ', S: 'Š', T: 'Ţ', U: 'Û', V: 'Ṽ', W: 'Ŵ', X: 'Ẋ', Y: 'Ý', Z: 'Ž',
}; // prettier-ignore
const VOWELS = /[aeiou]/gi;
/** How much longer a translation may be. */
const LONGER = 0.4;

/** @example pseudoMessage(readMessage('Save', 'en-US')) prints as '[Šááṽéé]' */
export function pseudoMessage(message: ReadMessage): ReadMessage {
  const parts: MessageFormatElement[] = [literal('['), ...pseudoParts(message.parts), literal(']')];
  return { ...message, parts };
}

function pseudoParts(parts: MessageFormatElement[]): MessageFormatElement[] {
  return parts.map((part): MessageFormatElement => {
    if (part.type === TYPE.literal) return { ...part, value: pseudoText(part.value) };
    if (part.type === TYPE.tag) return { ...part, children: pseudoParts(part.children) };
    if (part.type !== TYPE.select && part.type !== TYPE.plural) return part;
    const options = Object.entries(part.options).map(
      ([option, { value }]) => [option, { value: pseudoParts(value) }] as const,
    );
    return { ...part, options: Object.fromEntries(options) };
  });
}

/** Vowels are doubled from the first on until the text is long enough, so that words break where words break. */
function pseudoText(text: string): string {
  const vowels = text.match(VOWELS)?.length ?? 0;
  const wanted = Math.ceil(text.replaceAll(/\P{L}/gu, '').length * LONGER);
  const each = vowels === 0 ? 0 : Math.floor(wanted / vowels);
  const more = vowels === 0 ? 0 : wanted % vowels;
  let seen = 0;
  const longer = text.replaceAll(VOWELS, (vowel) => vowel.repeat(1 + each + (seen++ < more ? 1 : 0)));
  return longer.replaceAll(/[a-z]/gi, (letter) => ACCENTED[letter] ?? letter);
}

function literal(value: string): MessageFormatElement {
  return { type: TYPE.literal, value };
}
