import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;

describe('the take-home of an animal', () => {
  it('includes fat saved at the table although everything else was only packed', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    await cut(shop, animalId, { 'fat saved': '12' });
    for (const [product, typed] of [['Steaks and roasts', '90'], ['Ground', '130']] as const)
      await shop.call('table.weigh', {
        animalId, stage: 'packed', part: 'package', product, count: 40, typed,
      }); // prettier-ignore
    await shop.call('animals.setStage', {
      id: animalId,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    expect((await shop.call('animals.get', { id: animalId })).takeHomeGrams).toBeCloseTo(232 * LB, 6);
    expect((await shop.call('season.yields', {})).takeHomeGrams).toBeCloseTo(232 * LB, 6);
  });
});
