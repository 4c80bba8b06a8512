import { CoreProblem } from './problem.ts';
import { GRAMS_PER, type MassUnit } from './units.ts';

/**
 * A weight exactly as a person typed it: an integer count of decimal steps in one unit, and the text itself.
 * `84 lb 10 oz` is held as 1354 oz; grams are always derived, so nothing drifts.
 */
export interface Reading {
  readonly digits: number;
  readonly decimals: number;
  readonly unit: MassUnit;
  readonly typed: string;
}

const UNIT_WORDS: Readonly<Record<string, MassUnit>> = {
  lb: 'lb', lbs: 'lb', pound: 'lb', pounds: 'lb', '#': 'lb',
  oz: 'oz', ounce: 'oz', ounces: 'oz',
  kg: 'kg', kgs: 'kg', kilo: 'kg', kilos: 'kg', kilogram: 'kg', kilograms: 'kg',
  g: 'g', gr: 'g', gram: 'g', grams: 'g',
}; // prettier-ignore

/** Finer than any scale in a shop; it also keeps digits within exact integers. */
const MOST_DECIMALS = 4;
/** Heavier than anything that hangs on a rail (10 t), in grams. */
const MOST_GRAMS = 1e7;
const OUNCES_PER_POUND = 16;

/**
 * Reads what a person types for a weight: `84.6`, `84,6`, `38.4kg`, `84 lb 10 oz`, `18 1/2`, `1,234.5 lb`.
 * A bare number takes `defaultUnit`. `1,234` alone is refused: it may mean 1234 or 1.234.
 * @throws CoreProblem `reading.empty`, `reading.unreadable`, `reading.ambiguous`, `reading.negative`,
 *   `reading.zero`, `reading.too-fine`, `reading.too-heavy`, `reading.ounces`
 */
export function parseReading(text: string, defaultUnit: MassUnit): Reading {
  const typed = text.trim();
  if (typed === '') throw new CoreProblem('reading.empty', 'typed');
  const plain = typed
    .replace(/(\d)([¼-¾⅐-⅞])/g, '$1 $2')
    .normalize('NFKC')
    .replace(/[−–]/g, '-')
    .replace(/⁄/g, '/')
    .toLowerCase();
  if (plain.startsWith('-')) throw new CoreProblem('reading.negative', 'typed', { typed });

  const compound = /^(.+?)\s*(lbs?|pounds?|#)[\s,]*(\d[\d.,/\s]*?)\s*(oz|ounces?)?\.?$/.exec(plain);
  const reading = compound
    ? poundsAndOunces(typed, compound[1] ?? '', compound[3] ?? '')
    : oneUnit(typed, plain, defaultUnit);
  if (reading.digits === 0) throw new CoreProblem('reading.zero', 'typed', { typed });
  if (readingGrams(reading) > MOST_GRAMS) throw new CoreProblem('reading.too-heavy', 'typed', { typed });
  return reading;
}

/** Grams of a reading. */
export function readingGrams(reading: Pick<Reading, 'digits' | 'decimals' | 'unit'>): number {
  return (reading.digits * GRAMS_PER[reading.unit]) / 10 ** reading.decimals;
}

/** The step that the reading was typed to, in grams: `18.6 lb` tells a tenth of a pound. */
export function readingStepGrams(reading: Pick<Reading, 'decimals' | 'unit'>): number {
  return GRAMS_PER[reading.unit] / 10 ** reading.decimals;
}

/** A reading for a computed amount of whole steps, e.g. what a scale sent. Not for typed text. */
export function readingOf(value: number, decimals: number, unit: MassUnit): Reading {
  if (!Number.isFinite(value)) throw new CoreProblem('number.not-finite', 'value');
  const digits = Math.round(value * 10 ** decimals);
  return { digits, decimals, unit, typed: `${(digits / 10 ** decimals).toFixed(decimals)} ${unit}` };
}

function oneUnit(typed: string, plain: string, defaultUnit: MassUnit): Reading {
  const match = /^([\d.,/\s]+?)\s*([a-z#]*)\.?$/.exec(plain);
  if (!match) throw new CoreProblem('reading.unreadable', 'typed', { typed });
  const unit = match[2] === '' ? defaultUnit : UNIT_WORDS[match[2] ?? ''];
  if (!unit) throw new CoreProblem('reading.unreadable', 'typed', { typed });
  return { ...decimalNumber(match[1] ?? '', typed), unit, typed };
}

function poundsAndOunces(typed: string, pounds: string, ounces: string): Reading {
  const lb = decimalNumber(pounds, typed);
  const oz = decimalNumber(ounces, typed);
  if (lb.decimals > 0) throw new CoreProblem('reading.unreadable', 'typed', { typed });
  if (oz.digits >= OUNCES_PER_POUND * 10 ** oz.decimals)
    throw new CoreProblem('reading.ounces', 'typed', { typed });
  const digits = lb.digits * OUNCES_PER_POUND * 10 ** oz.decimals + oz.digits;
  return { digits, decimals: oz.decimals, unit: 'oz', typed };
}

/** Digits and decimals of `84.6`, `84,6`, `1,234.5`, `1.234,5`, `18 1/2`, `.5`. */
function decimalNumber(text: string, typed: string): { digits: number; decimals: number } {
  const unreadable = () => new CoreProblem('reading.unreadable', 'typed', { typed });
  const fraction = /^(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (fraction) return fractionNumber(fraction, unreadable);
  const number = text.replace(/\s+(?=\d{3}(\D|$))/g, '').trim();
  const marks = number.replace(/\d/g, '');
  let plain = number;
  if (marks === ',' && /^[1-9]\d{0,2},\d{3}$/.test(number)) {
    throw new CoreProblem('reading.ambiguous', 'typed', {
      typed,
      whole: number.replace(',', ''),
      decimal: number.replace(',', '.'),
    });
  }
  if (/^[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/.test(number)) plain = number.replaceAll(',', '');
  else if (/^[1-9]\d{0,2}(\.\d{3})+,\d*$/.test(number)) plain = number.replaceAll('.', '').replace(',', '.');
  else if (/^\d*,\d*$/.test(number)) plain = number.replace(',', '.');
  if (!/^(\d+\.?\d*|\.\d+)$/.test(plain)) throw unreadable();
  const [whole = '', decimalsText = ''] = plain.split('.');
  if (decimalsText.length > MOST_DECIMALS) throw new CoreProblem('reading.too-fine', 'typed', { typed });
  if (whole.length > 9) throw new CoreProblem('reading.too-heavy', 'typed', { typed });
  return { digits: Number(whole + decimalsText), decimals: decimalsText.length };
}

/** Halves, quarters, eighths and sixteenths are exact decimals; thirds are not, and no scale shows them. */
function fractionNumber(
  parts: RegExpExecArray,
  unreadable: () => CoreProblem,
): { digits: number; decimals: number } {
  const whole = Number(parts[1] ?? 0);
  const [numerator, denominator] = [Number(parts[2]), Number(parts[3])];
  if (![2, 4, 8, 16].includes(denominator) || numerator >= denominator) throw unreadable();
  const decimals = Math.log2(denominator);
  return { digits: whole * 10 ** decimals + (numerator * 10 ** decimals) / denominator, decimals };
}
