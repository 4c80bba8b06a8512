import { expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from './fresh-desk.ts';

/** Elk of 400 lb hanging: 90 lb of bone is usual; the last one's was typed a digit short. */
const PARTS = { 'whole cuts': '110', trim: '125', sinew: '38', damage: '20' };

it('judges a finished animal by the others, not by what it taught itself', async () => {
  const shop = await freshDesk();
  for (const bone of ['88', '9.4']) {
    const id = await takeIn(shop, { hunter: { name: `Hunter ${bone}` }, detail: 'detailed' });
    await cut(shop, id, { ...PARTS, bone });
    await shop.call('animals.setStage', { id, stage: 'packing' });
    const { balance, expected } = await shop.call('animals.get', { id });
    const usual = expected.find(({ part }) => part === 'bone');
    if (bone === '88') {
      expect(balance.suspects).toEqual([]);
      continue;
    }
    // 94 lb was meant: about a quarter of 400 lb, and still the range that such animals are held against.
    expect(usual?.low).toBeGreaterThan(0.12);
    expect(balance.suspects[0]).toMatchObject({ part: 'bone', typed: '9.4' });
  }
});
