/** Bills and payments of the invented shop: sometimes a deposit, and the balance at pickup. */
import type { DemoAnimal } from './invented/animal.ts';
import { drawing, type Draw } from './invented/draw.ts';
import { SEASONS } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';

const METHODS = [
  { value: 'cash', weight: 45 },
  { value: 'card', weight: 45 },
  { value: 'check', weight: 10 },
] as const;
const DEPOSITS = 0.3;
const DEPOSIT = '50';
/** Shares of hunters who pay in two parts, and who leave without paying. */
const IN_TWO_PARTS = 0.05;
const ON_THEIR_WORD = 0.02;
const CENTS = 100;
/** A separate random stream for each animal's money, so that it does not change the animal. */
const [DEPOSIT_STREAM, BILL_STREAM] = [1, 2];
const moneyDraw = ({ id }: DemoAnimal, stream: number): Draw => drawing(SEASONS.seed, id, stream);

export function takeDeposit({ counter }: Shop, animal: DemoAnimal, by: string): void {
  const draw = moneyDraw(animal, DEPOSIT_STREAM);
  if (!draw.maybe(DEPOSITS)) return;
  const method = draw.pickWeighted(METHODS);
  counter.confirm('bills.pay', { animalId: animal.id, kind: 'deposit', method, typed: DEPOSIT, by });
}

/**
 * Makes the bill and takes the payment. Returns the initials of the person who released the meat unpaid, or an
 * empty text.
 */
export function payBalance({ counter }: Shop, animal: DemoAnimal): string {
  const { id, cutter } = animal;
  const draw = moneyDraw(animal, BILL_STREAM);
  counter.confirm('bills.create', { animalId: id, by: cutter });
  if (draw.maybe(ON_THEIR_WORD)) return cutter;
  const { dueMinor } = counter.call('bills.get', { animalId: id });
  const first = draw.maybe(IN_TWO_PARTS) ? Math.round(dueMinor / 2 / CENTS) * CENTS : dueMinor;
  for (const minor of [first, dueMinor - first])
    if (minor > 0)
      counter.confirm('bills.pay', {
        animalId: id,
        kind: 'payment',
        method: draw.pickWeighted(METHODS),
        typed: (minor / CENTS).toFixed(2),
        by: cutter,
      });
  return '';
}
