/** An intake that was a mistake takes nothing that is charged, whichever way it is entered. */
import { expect, it } from 'vitest';
import { takeIn } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

it('a canceled animal takes no adjustments, hours or extras, and none of them is voided', async () => {
  const shop = await pricedShop([
    priced('caping', 'extra', { amountMinor: 5000 }),
    priced('trimming', 'hour', { amountMinor: 3600 }),
  ]);
  const animalId = await takeIn(shop);
  const adjustment = { kind: 'amount off', amountMinor: 100, reason: 'regular' } as const;
  const { id: adjustmentId } = await shop.call('bills.adjust', { animalId, adjustment });
  const { id: workTimeId } = await shop.call('bills.addHours', {
    animalId,
    lineCode: 'trimming',
    minutes: 9,
  });
  await shop.call('animals.cancel', { id: animalId, reason: 'entered twice' });
  const refused = { kind: 'refused', code: 'animal.closed', with: { ticket: '26-0001', stage: 'canceled' } };
  const said = { reason: 'mistyped' };
  const refusals = [
    await shop.problem('bills.adjust', { animalId, adjustment }),
    await shop.problem('bills.voidAdjustment', { adjustmentId, ...said }),
    await shop.problem('bills.addHours', { animalId, lineCode: 'trimming', minutes: 9 }),
    await shop.problem('bills.voidHours', { workTimeId, ...said }),
    await shop.problem('bills.setExtras', { animalId, pricedExtras: { caping: 1 } }),
  ];
  for (const refusal of refusals) expect(refusal).toMatchObject(refused);
});
