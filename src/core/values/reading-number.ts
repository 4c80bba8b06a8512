/** The number of a typed weight: digits, decimals and fractions, without its unit. */
import { ValidationError } from './validation-error.ts';

/** A number as digits / 10^decimals. */
export interface TypedNumber {
  readonly digits: number;
  readonly decimals: number;
}

/** Finer than any scale in a shop; it also keeps digits within the exact integers. */
export const MAX_DECIMALS = 4;
/** Halves to sixteenths: the fractions on old scale dials, exact within four decimals. */
const DENOMINATORS = [2, 4, 8, 16];
const FRACTION = /^(?:(\d+)\s+)?(\d+)\s*\/\s*(\d+)$/;
/** Two numbers, one with a thousands space, or one whose decimal point is missing: ambiguous. */
const SPACED = /^(\d+)\s+(\d{3})$/;

/**
 * Digits and decimals of `84.6`, `84,6`, `1,234.5`, `1.234,5`, `1 234,5`, `18 1/2`, `.5`.
 * @param after the text after the number (its unit), for the two meanings that an ambiguous number is offered with;
 *   null: an ambiguous number is unreadable
 * @throws ValidationError `reading.unreadable`, `reading.ambiguous`, `reading.fraction`, `reading.too-fine`,
 *   `reading.too-heavy`
 */
export function typedNumber(text: string, typed: string, after: string | null = ''): TypedNumber {
  const number = text.trim();
  const fraction = FRACTION.exec(number);
  if (fraction) return fractionOf(fraction, typed);
  const spaced = SPACED.exec(number);
  const [, whole = '', last = ''] = spaced ?? /^([1-9]\d{0,2}),(\d{3})$/.exec(number) ?? [];
  if (last !== '') {
    if (after === null) throw new ValidationError('reading.unreadable', 'typed', { typed });
    const tail = after === '' ? '' : ` ${after}`;
    throw new ValidationError('reading.ambiguous', 'typed', {
      typed,
      whole: `${`${whole}${last}`.replace(/^0+(?=\d)/, '')}${tail}`,
      decimal: `${whole}.${last}${tail}`,
    });
  }
  return decimalNumber(grouped(number), typed);
}

/** Whether the text is nothing but a fraction: `1/2`, but not `3 1/2`. */
export function isFraction(text: string): boolean {
  return /^\d+\s*\/\s*\d+$/.test(text.trim());
}

/** Without thousands separators, and with a decimal point for a decimal comma. */
function grouped(number: string): string {
  const joined = number.replace(/\s+(?=\d{3}(\D|$))/g, '');
  if (/^[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/.test(joined)) return joined.replaceAll(',', '');
  if (/^[1-9]\d{0,2}(\.\d{3})+,\d*$/.test(joined)) return joined.replaceAll('.', '').replace(',', '.');
  return /^\d*,\d*$/.test(joined) ? joined.replace(',', '.') : joined;
}

function decimalNumber(plain: string, typed: string): TypedNumber {
  if (!/^(\d+\.?\d*|\.\d+)$/.test(plain)) throw new ValidationError('reading.unreadable', 'typed', { typed });
  const [whole = '', decimals = ''] = plain.split('.');
  if (decimals.length > MAX_DECIMALS) throw new ValidationError('reading.too-fine', 'typed', { typed });
  if (whole.length > 9) throw new ValidationError('reading.too-heavy', 'typed', { typed });
  return { digits: Number(whole + decimals), decimals: decimals.length };
}

/**
 * Converts a fraction to its exact decimal: 10/16 is 0.625. Thirds, twelfths and the like have no exact decimal,
 * and no scale shows them; they are refused, never rounded.
 */
function fractionOf(parts: RegExpExecArray, typed: string): TypedNumber {
  const [numerator, denominator] = [Number(parts[2]), Number(parts[3])];
  if (!DENOMINATORS.includes(denominator) || numerator >= denominator)
    throw new ValidationError('reading.fraction', 'typed', { typed });
  if ((parts[1] ?? '').length > 9) throw new ValidationError('reading.too-heavy', 'typed', { typed });
  let [above, below] = [numerator, denominator];
  while (above % 2 === 0 && below > 1) [above, below] = [above / 2, below / 2];
  const decimals = Math.log2(below);
  return { digits: Number(parts[1] ?? 0) * 10 ** decimals + (above * 10 ** decimals) / below, decimals };
}
