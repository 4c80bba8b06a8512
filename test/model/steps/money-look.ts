/** What is said of an animal's money, held against the model. */
import type { CallOutput } from '../../../src/bridge/contract.ts';
import { act, because, type Act } from '../step.ts';
import { GRAMS, type Shop } from '../shop.ts';
import type { Animal } from '../state.ts';

export function same(what: string, found: unknown, wanted: unknown): void {
  if (JSON.stringify(found) !== JSON.stringify(wanted))
    throw new Error(`${what}: the desk says ${JSON.stringify(found)}, the model ${JSON.stringify(wanted)}`);
}

export const ids = (rows: readonly { id: number }[]): number[] =>
  rows.map(({ id }) => id).sort((a, b) => a - b);

/** What it is charged by the hanging weight: on the hook; skinned or in pieces, as it came. */
export function baseOf(shop: Shop, { id, brought }: Animal): number | null {
  const hanging = shop.gramsOrNull({ animal: id, stage: 'hanging' });
  const received = shop.gramsOrNull({ animal: id, stage: 'received' });
  if (brought === 'whole') return hanging;
  return brought === 'skinned' ? (hanging ?? received) : (received ?? hanging);
}

/** What must hold of every bill, whatever its prices: it adds up, in whole minor units, and counts what was weighed. */
function checkBill(shop: Shop, animal: Animal, bill: NonNullable<CallOutput<'bills.get'>['bill']>, fresh: boolean): string[] {
  const sum = (of: 'amountMinor' | 'taxMinor') => bill.lines.reduce((total, one) => total + one[of], 0);
  const numbers = [bill.subtotalMinor, bill.taxMinor, bill.totalMinor, ...bill.lines.flatMap((one) => [one.amountMinor, one.taxMinor])];
  const base = baseOf(shop, animal);
  const wrong = because(
    [numbers.some((one) => !Number.isSafeInteger(one)), 'an amount is not whole'],
    [sum('amountMinor') !== bill.subtotalMinor, 'its lines do not add up'],
    [sum('taxMinor') !== bill.taxMinor, 'its taxes do not add up'],
    [bill.subtotalMinor + bill.taxMinor !== bill.totalMinor, 'its total is not the sum'],
    [bill.totalMinor < 0, 'its total is below nothing'],
  );
  for (const one of bill.lines)
    if (Math.abs(one.quantity * one.unitPriceMinor - one.amountMinor) > 1)
      wrong.push(`line ${one.code}: ${one.quantity} × ${one.unitPriceMinor} is not ${one.amountMinor}`);
  const hang = bill.lines.find(({ code }) => code === 'hang');
  if (fresh && hang?.unit && base !== null && Math.abs(hang.quantity - base / GRAMS[hang.unit]) > 1e-6)
    wrong.push(`billed by ${hang.quantity} ${hang.unit} of ${base} g`);
  return wrong;
} // prettier-ignore

/** Bills and payments of an animal, as its money is told. */
export function lookAtMoney(shop: Shop, animal: Animal, fresh = false): Act {
  return act('bills.get', { animalId: animal.id }, {
    refuse: because([animal.id === 9999, 'animal.unknown']),
    done({ bill, paidMinor, dueMinor, payments, voidedBills }) {
      const stands = shop.bill(animal.id);
      same('the bill that stands', bill?.number ?? null, stands?.number ?? null);
      if (bill && stands) {
        const wrong = checkBill(shop, animal, bill, fresh);
        if (wrong.length > 0) throw new Error(`bill ${bill.number}: ${wrong.join('; ')}`);
        if (fresh) stands.total = bill.totalMinor;
        same('the total', bill.totalMinor, stands.total);
        same('what is due', dueMinor, stands.total - shop.paid(animal.id));
      }
      same('what was paid', paidMinor, shop.paid(animal.id));
      same('payments', ids(payments), ids(shop.book.payments.filter((one) => one.animal === animal.id)));
      same('voided bills', ids(voidedBills), ids(shop.book.bills.filter((one) => one.animal === animal.id && one.voided)));
    },
  });
} // prettier-ignore
