/** Finds what a window of another language calls a thing whose English name a test knows. */
import { TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import { literalsOf, messagesOf } from '../../words/catalogue-words.ts';

/** What a name may be in another language. */
export type Say = (english: string | RegExp, exact?: boolean) => RegExp;

/** Texts, and the names of values. */
type Form = readonly (string | { value: string })[];
type Choice = Readonly<Record<string, string>>;

/** What stands for a value of a message while a pattern is tried on it. */
const SAMPLES = ['9', '100 lb', '1° 26-0001', 'Nov 2'];

export function sayIn(language: string): Say {
  const said = messagesOf(language);
  const forms = [...messagesOf('en-US')].flatMap(([key, { parts }]) => {
    const other = said.get(key)?.parts ?? parts;
    if (!/\p{L}{3}/u.test(literalsOf(parts))) return [];
    return choicesOf(parts).map((choice) => ({
      english: formOf(parts, choice),
      said: formOf(other, choice),
    }));
  });
  const plain = new Map(forms.map((one) => [textOf(one.english, () => ''), textOf(one.said, () => '')]));

  function ofText(english: string): string[] {
    return forms.flatMap((form) => {
      const found = patternOf(form.english).exec(english);
      if (!found) return [];
      const values = valuesOf(form.english);
      const value = (name: string) => found[values.indexOf(name) + 1] ?? '';
      return textOf(form.said, (name) => plain.get(value(name)) ?? value(name), escaped);
    });
  }
  function ofPattern(english: RegExp): string[] {
    const found = forms.filter((form) =>
      SAMPLES.some((sample) => english.test(textOf(form.english, () => sample))),
    );
    return found.map((form) => textOf(form.said, () => '.*', escaped));
  }
  return (english, exact = false) => {
    const names = [...new Set(typeof english === 'string' ? ofText(english) : ofPattern(english))];
    if (names.length === 0) throw new Error(`No message says ${String(english)}.`);
    const [from, to] =
      typeof english === 'string'
        ? exact
          ? ['^', '$']
          : ['', '']
        : [english.source.startsWith('^') ? '^' : '', ''];
    return new RegExp(`${from}(?:${names.join('|')})${to}`, exact ? 'u' : 'iu');
  };
}

/** More ways to choose than this are not all tried. */
const MANY = 100;

/** Every way to choose among the options of a message; one value at a time where these are too many. */
function choicesOf(parts: readonly MessageFormatElement[]): Choice[] {
  const options = Object.entries(optionsOf(parts));
  const ways = options.reduce((product, [, of]) => product * of.size, 1);
  const each = ([value, of]: (typeof options)[number]): Choice[] =>
    [...of].map((option) => ({ [value]: option }));
  if (ways > MANY) return [{}, ...options.flatMap(each)];
  return options.reduce<Choice[]>(
    (some, one) => some.flatMap((before) => each(one).map((next) => ({ ...before, ...next }))),
    [{}],
  );
}

function optionsOf(
  parts: readonly MessageFormatElement[],
  found: Record<string, Set<string>> = {},
): Record<string, Set<string>> {
  for (const part of parts) {
    if (part.type === TYPE.tag) optionsOf(part.children, found);
    if (part.type !== TYPE.select && part.type !== TYPE.plural) continue;
    for (const [option, { value }] of Object.entries(part.options)) {
      (found[part.value] ??= new Set()).add(option);
      optionsOf(value, found);
    }
  }
  return found;
}

function formOf(parts: readonly MessageFormatElement[], choice: Choice): Form {
  return parts.flatMap((part): Form => {
    if (part.type === TYPE.literal) return [part.value];
    if (part.type === TYPE.tag) return formOf(part.children, choice);
    if (part.type === TYPE.pound) return [{ value: '#' }];
    if (part.type !== TYPE.select && part.type !== TYPE.plural) return [{ value: part.value }];
    const chosen = part.options[choice[part.value] ?? 'other'] ?? part.options.other;
    return formOf(chosen?.value ?? [], choice);
  });
}

function valuesOf(form: Form): string[] {
  return form.flatMap((part) => (typeof part === 'string' ? [] : [part.value]));
}

function textOf(form: Form, value: (name: string) => string, literal = (text: string) => text): string {
  return form.map((part) => (typeof part === 'string' ? literal(part) : value(part.value))).join('');
}

function patternOf(form: Form): RegExp {
  return new RegExp(`^${textOf(form, () => '(.+?)', escaped)}$`, 'u');
}

/** As a pattern that finds it, with any white space where it has some. */
export function escaped(text: string): string {
  return text.replaceAll(/[$()*+.?[\\\]^{|}/]/g, '\\$&').replaceAll(/\s+/g, '\\s+');
}
