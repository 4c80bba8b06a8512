/** What a weight is in grams: read from its text in today's unit, or taken from the book as it was read then. */
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams, type Reading } from '../../core/values/reading.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** A weight with its container, as both stood on the scale. */
export interface Read {
  reading: Reading;
  tare: Reading | null;
  /** Net of tare. */
  grams: number;
}

/**
 * Reads a typed weight in the unit of the shop.
 * @param tare the container, where it is known otherwise than by `tareTyped`
 * @throws ValidationError `reading.*`; ProblemError `reading.tare` (invalid)
 */
export function readWeight(
  session: Session,
  input: { typed: string; tareTyped?: string },
  tare: Reading | null = input.tareTyped?.trim() ? parseLoads(input.tareTyped, session.settings.unit) : null,
): Read {
  const reading = parseLoads(input.typed, session.settings.unit);
  const grams = readingGrams(reading) - (tare ? readingGrams(tare) : 0);
  if (!(grams > 0))
    throw new ProblemError('invalid', 'reading.tare', {
      field: 'tareTyped',
      with: { typed: input.typed, tare: tare?.typed ?? '' },
    });
  return { reading, tare, grams };
}

/** What stood on the scale, whatever unit the shop weighs in now. */
export function readOf(old: WeighingRecord): Read {
  const { typed, digits, decimals, unit, grams } = old;
  const { tare_typed: tareTyped, tare_digits, tare_decimals, tare_unit } = old;
  return {
    reading: { typed, digits, decimals, unit },
    tare:
      tareTyped !== null && tare_digits !== null && tare_decimals !== null && tare_unit !== null
        ? { typed: tareTyped, digits: tare_digits, decimals: tare_decimals, unit: tare_unit }
        : null,
    grams,
  };
}
