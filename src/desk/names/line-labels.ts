/** What the program calls a line of a bill or quote beside the price book's own label, and the same in other languages. */
import { text } from '../../words/compiled/desk/names/lines.ts';
import { SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';

type Kind = 'least' | 'priceChanged' | 'discount';

const english = inLanguage(text, SOURCE_LANGUAGE);

/** The label of a line that charges for its minimum. @example leastLabel('Jerky', 25, 'lb') // 'Jerky (min. 25 lb)' */
export function leastLabel(label: string, least: number, unit: string): string {
  return english.least({ label, least: String(least), unit });
}

/** The label of a line at another price than that of the price book. */
export function changedLabel(label: string): string {
  return english.priceChanged({ label });
}

/** The label of a discount, which tells its reason. */
export function discountLabel(reason: string): string {
  return english.discount({ label: reason });
}

export const TAX_LABEL = english.tax;

/** What may stand for each value of a label. */
const VALUES = { label: '.+', least: String.raw`\d+(?:\.\d+)?`, unit: 'lb|kg' };
/** No text holds it, so it marks the place of a value in a message. */
const mark = (name: string): string => `\u0000${name}\u0000`;

const patterns = new Map<Language, Readonly<Record<Kind, RegExp>>>();

/**
 * Such a label of one language in another, its own words by `turn`; null for a label that is none of these.
 * @example lineLabelIn('es-MX', 'en-US', 'Corte (precio cambiado)', (own) => own) // 'Corte (price changed)'
 */
export function lineLabelIn(
  from: Language,
  to: Language,
  label: string,
  turn: (own: string) => string,
): string | null {
  const said = inLanguage(text, to);
  if (label === inLanguage(text, from).tax) return said.tax;
  for (const kind of ['least', 'priceChanged', 'discount'] as const) {
    const found = patternsOf(from)[kind].exec(label)?.groups;
    if (found) {
      const { least = '', unit = '' } = found;
      return said[kind]({ label: turn(found.label ?? ''), least, unit });
    }
  }
  return null;
}

function patternsOf(language: Language): Readonly<Record<Kind, RegExp>> {
  const known = patterns.get(language);
  if (known) return known;
  const said = inLanguage(text, language);
  const label = mark('label');
  const made = {
    least: patternOf(said.least({ label, least: mark('least'), unit: mark('unit') })),
    priceChanged: patternOf(said.priceChanged({ label })),
    discount: patternOf(said.discount({ label })),
  };
  patterns.set(language, made);
  return made;
}

function patternOf(message: string): RegExp {
  const parts = message.split('\u0000').map((part, i) => {
    if (i % 2 === 0) return part.replace(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
    return `(?<${part}>${VALUES[part as keyof typeof VALUES]})`;
  });
  return new RegExp(`^${parts.join('')}$`, 'su');
}
