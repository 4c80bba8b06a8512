/** A weight in grams: parsed from text in the shop's unit, or taken from a stored row as it was read. */
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams, type Reading } from '../../core/values/reading.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** A weight and its container as read off the scale. */
export interface Read {
  reading: Reading;
  tare: Reading | null;
  /** Net of tare. */
  grams: number;
}

/**
 * Parses a typed weight in the shop's unit.
 * @param tare the container, if it is not given by `tareTyped`
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

/** The stored reading, in the unit in which it was weighed. */
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
