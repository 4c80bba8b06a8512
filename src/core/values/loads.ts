/** One weight that went over the scale in several loads: `61.2 + 58.4`. */
import { MAX_READING_GRAMS, parseReading, readingGrams, type Load, type Reading } from './reading.ts';
import { OUNCES_PER_POUND, type MassUnit } from './units.ts';
import { ValidationError } from './validation-error.ts';

/** A kilogram is 10³ grams. */
const KILO = 3;

/**
 * Reads a weight that may be the sum of several loads, each typed as `parseReading` has it. The sum is exact: pounds and
 * ounces together are held in ounces, kilograms and grams in grams. `typed` is the whole text; `loads` is left out of a
 * single weight.
 * @throws ValidationError those of `parseReading`; `reading.loads-mixed` (pounds with kilograms, or a unit of the other
 *   system on only some of the loads)
 * @example parseLoads('61.2+58.4', 'lb') // { digits: 1196, decimals: 1, unit: 'lb', typed: '61.2+58.4', loads: […] }
 */
export function parseLoads(text: string, defaultUnit: MassUnit): Reading {
  const typed = text.trim();
  const texts = typed.replace(/^\+/, '').split('+');
  if (texts.length === 1) return parseReading(text, defaultUnit);
  if (texts.some((one) => one.trim() === ''))
    throw new ValidationError('reading.unreadable', 'typed', { typed });
  const loads = texts.map((one) => parseReading(one, defaultUnit));
  if (loads.some(({ unit }) => isMetric(unit) !== isMetric(loads[0]?.unit ?? unit)))
    throw new ValidationError('reading.loads-mixed', 'typed', { typed });
  const sum = { ...sumOf(loads), typed };
  if (readingGrams(sum) > MAX_READING_GRAMS)
    throw new ValidationError('reading.too-heavy', 'typed', { typed });
  return sum;
}

/** The loads as one reading, exactly, in the finest unit and step among them. */
export function sumOf(loads: readonly Load[]): Omit<Reading, 'typed'> {
  const units = new Set(loads.map(({ unit }) => unit));
  const [first = 'lb'] = units;
  const unit: MassUnit = units.size === 1 ? first : isMetric(first) ? 'g' : 'oz';
  const exact = loads.map((load) => inUnit(load, unit));
  const decimals = Math.max(...exact.map((load) => load.decimals));
  const digits = exact.reduce((sum, load) => sum + load.digits * 10 ** (decimals - load.decimals), 0);
  return { digits, decimals, unit, loads };
}

function inUnit({ digits, decimals, unit }: Load, wanted: MassUnit): Load {
  if (unit === wanted) return { digits, decimals, unit };
  if (wanted === 'oz') return { digits: digits * OUNCES_PER_POUND, decimals, unit: 'oz' };
  const left = decimals - KILO;
  return { digits: left < 0 ? digits * 10 ** -left : digits, decimals: Math.max(0, left), unit: 'g' };
}

function isMetric(unit: MassUnit): boolean {
  return unit === 'kg' || unit === 'g';
}
