/** Corrections of fat on hand: discarding, counting, and the movements of a lot. */
import * as v from 'valibot';
import type { FatLotRecord } from '../../book/records/fat-lots.ts';
import { parseLoads } from '../../core/values/loads.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { openAnimalOf } from '../animal/closed.ts';
import { ROUNDING_TOLERANCE_GRAMS, lotOf, lotWith } from '../animal/fat-moves.ts';
import { by, id, needed, typed } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { FatMoveRow } from '../contract/contract.ts';

/** A typed weight of zero: a cooler can be empty. */
const EMPTY = /^\s*0*(?:[.,]0*)?\s*(?:lb|lbs|kg|g|oz)?\s*$/i;

/**
 * Discards an amount of a lot, or all of it. @throws ValidationError `reading.*`; ProblemError `fat.not-enough`,
 * `fat.none-left`, `animal.closed`
 */
export const discard = write(
  v.object({ lotId: id, typed: v.optional(v.nullable(typed), null), reason: needed(200), by }),
  (session, { lotId, typed: typedWeight, reason, by: initials }) => {
    const lot = lotHere(session, lotId);
    if (lot.left_grams <= ROUNDING_TOLERANCE_GRAMS)
      throw new ProblemError('refused', 'fat.none-left', { field: 'lotId', with: { ...lotWith(lot) } });
    const reading = typedWeight === null ? null : parseLoads(typedWeight, session.settings.unit);
    const grams = reading === null ? lot.left_grams : readingGrams(reading);
    if (grams > lot.left_grams + ROUNDING_TOLERANCE_GRAMS)
      throw new ProblemError('refused', 'fat.not-enough', {
        field: 'typed',
        with: { grams, leftGrams: lot.left_grams, ...lotWith(lot) },
      });
    const out = Math.min(grams, lot.left_grams);
    move(session, lot, { kind: 'thrown out', grams: -out, typed: typedWeight, note: reason, by: initials });
    return { leftGrams: lot.left_grams - out };
  },
);

/**
 * Saves the counted amount of a lot; the difference becomes a movement. It cannot exceed what came in.
 * @throws ValidationError `reading.*`; ProblemError `fat.more-than-came`, `fat.as-counted` (no difference),
 * `animal.closed`
 */
export const count = write(
  v.object({ lotId: id, typed, reason: needed(200), by }),
  (session, { lotId, typed: typedWeight, reason, by: initials }) => {
    const lot = lotHere(session, lotId);
    const grams =
      typedWeight.trim() !== '' && EMPTY.test(typedWeight)
        ? 0
        : readingGrams(parseLoads(typedWeight, session.settings.unit));
    if (grams > lot.start_grams + ROUNDING_TOLERANCE_GRAMS)
      throw new ProblemError('refused', 'fat.more-than-came', {
        field: 'typed',
        with: { grams, startGrams: lot.start_grams, ...lotWith(lot) },
      });
    const difference = grams - lot.left_grams;
    if (Math.abs(difference) <= ROUNDING_TOLERANCE_GRAMS)
      throw new ProblemError('refused', 'fat.as-counted', {
        field: 'typed',
        with: { grams, ...lotWith(lot) },
      });
    move(session, lot, {
      kind: 'counted',
      grams: difference,
      typed: typedWeight,
      note: reason,
      by: initials,
    });
    return { leftGrams: grams, differenceGrams: difference };
  },
);

/** All movements of a lot, oldest first, with the amount left after each. */
export const listMovements = read(v.object({ lotId: id }), (session, { lotId }): FatMoveRow[] => {
  let left = 0;
  return session.book.fat
    .movements(lotOf(session, lotId).id)
    .map(({ kind, grams, typed: asTyped, note, at, by: who, batch }) => {
      left += grams;
      return { kind, grams, typed: asTyped, note, at, by: who, batch, leftGrams: Math.max(0, left) };
    });
});

/** A lot, unless it is own fat of an animal that has left, and left with it. */
function lotHere(session: Session, lotId: number): FatLotRecord {
  const lot = lotOf(session, lotId);
  if (lot.animal_id !== null) openAnimalOf(session, lot.animal_id);
  return lot;
}

function move(
  session: Session,
  lot: FatLotRecord,
  moved: { kind: 'thrown out' | 'counted'; grams: number; typed: string | null; note: string; by: string },
): void {
  session.book.fat.move({ ...moved, lotId: lot.id, weighingId: null, at: session.now() });
}
