/** Extras of the price book on the bill. They are part of the orders. */
import * as v from 'valibot';
import { instructionsOf, withExtras } from '../animal/instructions.ts';
import { by, id, pricedExtras } from '../input/input.ts';
import { pricedLines } from '../pricing/prices.ts';
import { write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import type { BillView } from '../contract/contract.ts';
import { animalOf } from '../animal/closed.ts';
import { refuseBilled, refuseStanding } from './billed.ts';

/** Extras of the prices in force, and ordered extras without a price, each with its count. */
export function extrasOf(session: Session, animalId: number): BillView['extras'] {
  const ordered = instructionsOf(session, animalId).pricedExtras;
  const listed = pricedLines(session, 'extra');
  const others = Object.keys(ordered).filter((code) => !listed.some((line) => line.code === code));
  return [...listed, ...others.map((code) => ({ code, label: code, unitPriceMinor: 0 }))].map((line) => ({
    ...line,
    quantity: ordered[line.code] ?? 0,
  }));
}

/**
 * Saves new extras in the orders. Everything else stays, including whether the hunter was asked.
 * @throws ProblemError `animal.unknown`, `animal.closed`, `bill.stands`, `orders.too-many` (refused)
 */
export const setExtras = write(v.object({ animalId: id, pricedExtras, by }), (session, input) => {
  const animal = animalOf(session, input.animalId);
  refuseBilled(session, animal);
  refuseMoreOfAnimal(session, animal, 'instructions');
  const orders = withExtras(session, animal.id, input.pricedExtras);
  session.book.animals.instruct(animal.id, orders, session.now(), input.by);
  return { animalId: animal.id };
});

/**
 * Refuses to change extras while a bill is active, which would not charge them. @throws ProblemError `bill.stands`
 */
export function refuseOtherExtras(
  session: Session,
  animalId: number,
  next: Readonly<Record<string, number>>,
): void {
  const ordered = instructionsOf(session, animalId).pricedExtras;
  const codes = [...Object.keys(ordered), ...Object.keys(next)];
  if (codes.some((code) => (ordered[code] ?? 0) !== (next[code] ?? 0))) refuseStanding(session, animalId);
}
