import { parseLoads } from '../../core/values/loads.ts';
import { parseReading, readingGrams, type Reading } from '../../core/values/reading.ts';
import { formatAmount, fromGrams, OUNCES_PER_POUND } from '../../core/values/units.ts';

/**
 * The parsed value of a typed weight in several units, for checking; empty while the text is invalid. For a sum of
 * loads, the total.
 * @example echoOf('84.6', 'lb', 'en-US') // '= 84 lb 9.6 oz = 38.37 kg'
 */
export function echoOf(typed: string, unit: 'lb' | 'kg', locale: string): string {
  const reading = loadsIn(typed, unit);
  if (!reading) return '';
  const grams = readingGrams(reading);
  const pounds = `${formatAmount(fromGrams(grams, 'lb'), 2, locale)} lb`;
  const kilos = `${formatAmount(grams / 1000, 2, locale)} kg`;
  const metric = reading.unit === 'kg' || reading.unit === 'g';
  if (reading.loads) return (metric ? [kilos, pounds] : [pounds, kilos]).map((way) => `= ${way}`).join(' ');
  const ways = metric ? [pounds, kilos] : [poundsAndOunces(grams, locale), pounds, kilos];
  const asTyped = [typed.trim(), `${typed.trim()} ${unit}`];
  const own = reading.unit === 'lb' ? pounds : reading.unit === 'kg' ? kilos : '';
  return ways
    .filter((way) => !asTyped.includes(way) && way !== own)
    .map((way) => `= ${way}`)
    .join(' ');
}

/** The reading, or null for text that is not a valid weight yet. The desk reports the error on save. */
export function readingIn(typed: string, unit: 'lb' | 'kg'): Reading | null {
  try {
    return parseReading(typed, unit);
  } catch {
    return null;
  }
}

/** As above, but also accepts a sum of loads: `61.2+58.4`. */
export function loadsIn(typed: string, unit: 'lb' | 'kg'): Reading | null {
  try {
    return parseLoads(typed, unit);
  } catch {
    return null;
  }
}

function poundsAndOunces(grams: number, locale: string): string {
  const tenths = Math.round(fromGrams(grams, 'oz') * 10);
  const pounds = Math.floor(tenths / (OUNCES_PER_POUND * 10));
  const ounces = (tenths - pounds * OUNCES_PER_POUND * 10) / 10;
  return `${pounds} lb ${formatAmount(ounces, Number.isInteger(ounces) ? 0 : 1, locale)} oz`;
}
