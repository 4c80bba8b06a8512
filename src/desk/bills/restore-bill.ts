import * as v from 'valibot';
import type { BillRecord } from '../../book/records/bills.ts';
import { animalOf, refuseStage } from '../animal/closed.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, id } from '../input/input.ts';
import { localDate } from '../input/local-date.ts';
import { refuseBillIn } from '../pricing/account.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { refuseMoreBills, refuseStanding } from './billed.ts';

/**
 * Undoes the void of an animal's newest bill: identical lines are entered under the next number, dated on the day of
 * the void, so that they cancel out in that day's journal. The voided bill stays.
 * @throws ProblemError `bill.unknown`, `bill.not-voided`, `bill.newer` (conflict: a later one was made and voided),
 * `bill.stands`, `bill.changed` (adjustments, hours or extras changed since), `bill.too-many`, `bill.other-currency`,
 * `bill.paid-in-other-currency`, `animal.closed` (refused)
 */
export const restoreBill = write(v.object({ billId: id, by }), (session, input) => {
  const { bills } = session.book;
  const old = bills.get(input.billId);
  if (!old) throw new ProblemError('missing', 'bill.unknown', { field: 'billId' });
  if (old.void_at === null)
    throw new ProblemError('conflict', 'bill.not-voided', { with: { number: old.number } });
  const animal = animalOf(session, old.animal_id);
  refuseStage(animal, 'canceled');
  refuseStanding(session, animal.id);
  const [newest] = bills.ofAnimal(animal.id);
  if (newest && newest.id !== old.id)
    throw new ProblemError('conflict', 'bill.newer', {
      with: { number: old.number, newer: newest.number },
    });
  refuseBillIn(session, old.currency, animal);
  if (chargesChanged(session, old, old.void_at))
    throw new ProblemError('refused', 'bill.changed', { with: { number: old.number } });
  refuseMoreBills(session, animal);
  return bills.add(
    {
      animalId: animal.id,
      priceBookId: old.price_book_id,
      quoteId: old.quote_id,
      amounts: JSON.parse(old.amounts) as object,
      currency: old.currency,
      subtotalMinor: old.subtotal_minor,
      taxMinor: old.tax_minor,
      totalMinor: old.total_minor,
      billedOn: localDate(new Date(old.void_at), session.settings.zone),
      at: session.now(),
      by: input.by,
    },
    bills.lines(old.id),
  );
});

/** Whether charges that an active bill freezes changed after the void. */
function chargesChanged(session: Session, bill: BillRecord, since: string): boolean {
  const { adjustments, workTimes } = session.book;
  const rows = [...adjustments.ofAnimal(bill.animal_id), ...workTimes.ofAnimal(bill.animal_id)];
  if (rows.some((row) => row.at > since || (row.void_at ?? '') > since)) return true;
  const now = instructionsOf(session, bill.animal_id).pricedExtras;
  const then = frozenExtras(bill);
  return [...Object.keys(now), ...Object.keys(then)].some((code) => (now[code] ?? 0) !== (then[code] ?? 0));
}

/** Older bills froze extras as codes without quantities. */
function frozenExtras({ amounts }: BillRecord): Readonly<Record<string, number>> {
  const { extras = {} } = JSON.parse(amounts) as {
    extras?: readonly string[] | Readonly<Record<string, number>>;
  };
  return Array.isArray(extras)
    ? Object.fromEntries((extras as readonly string[]).map((code) => [code, 1]))
    : (extras as Readonly<Record<string, number>>);
}
