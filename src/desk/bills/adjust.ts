import * as v from 'valibot';
import { adjustmentInput, adjustmentOf, adjustmentRow, checkAdjustments } from '../pricing/adjustments.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { by, id, needed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { animalOf } from '../animal/closed.ts';
import { refuseBilled } from './billed.ts';

/**
 * Adjusts the price book for one animal: a free line, a discount, another price, or the line for a product without a
 * price. It applies to the animal's next bill.
 * @throws ProblemError `bill.no-prices`, `bill.stands`, `animal.closed`, `adjustment.too-many` (refused),
 * `adjustment.line`, `price.discount-over-all`
 */
export const adjust = write(
  v.object({ animalId: id, adjustment: adjustmentInput, by }),
  (session, { animalId, adjustment, by: initials }) => {
    const animal = animalOf(session, animalId);
    refuseBilled(session, animal);
    const prices = pricesInForce(session);
    if (!prices) throw new ProblemError('refused', 'bill.no-prices');
    refuseMoreOfAnimal(session, animal, 'adjustment');
    const standing = session.book.adjustments
      .ofAnimal(animalId)
      .filter((row) => row.void_at === null && row.kind === 'percent off')
      .map(adjustmentOf);
    checkAdjustments(prices.lines, [...standing, adjustment]);
    const of = {
      animal_id: animalId, quote_id: null, currency: prices.currency, at: session.now(), by: initials,
    }; // prettier-ignore
    return { id: session.book.adjustments.add(adjustmentRow(adjustment, of)) };
  },
);

/** Voids an adjustment with a reason. @throws ProblemError `adjustment.unknown`, `adjustment.voided`, `bill.stands`, `animal.closed` */
export const voidAdjustment = write(
  v.object({ adjustmentId: id, reason: needed(300), by }),
  (session, input) => {
    const row = session.book.adjustments.get(input.adjustmentId);
    if (!row) throw new ProblemError('missing', 'adjustment.unknown', { field: 'adjustmentId' });
    if (row.void_at !== null)
      throw new ProblemError('conflict', 'adjustment.voided', { with: { reason: row.void_reason ?? '' } });
    refuseBilled(session, animalOf(session, row.animal_id));
    session.book.adjustments.void(row.id, input.reason, session.now(), input.by);
    return { adjustmentId: row.id };
  },
);
