import { expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

/** An elk of 400 lb: 385 lb of parts, and a tote of 60 lb of trim that went over the scale twice. */
const PARTS = { 'whole cuts': '110', sinew: '38', bone: '92', damage: '20' };

it('says that a container was weighed twice where that explains what is too much', async () => {
  const shop = await freshDesk();
  const id = await takeIn(shop, { detail: 'detailed' });
  await cut(shop, id, { ...PARTS, trim: '65' });
  for (let i = 0; i < 2; i++) {
    shop.wait(60);
    await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'trim',
      typed: '60',
      confirmed: true,
    });
  }
  // 110 + 38 + 92 + 20 + 65 + 60 + 60 = 445 lb of 400: one tote less is 385.
  const { balance } = await shop.call('animals.get', { id });
  const twin = balance.suspects.find(({ typed }) => typed === '60');
  expect(twin).toMatchObject({ part: 'trim', twice: true, likely: null });
  await shop.call('table.void', { weighingId: twin?.weighingId ?? 0, reason: 'weighed twice' });
  const after = (await shop.call('animals.get', { id })).balance;
  expect(after.overGrams).toBe(0);
  expect(after.suspects.some(({ twice }) => twice)).toBe(false);
});

it('does not say so of two equal totes that fit', async () => {
  const shop = await freshDesk();
  const id = await takeIn(shop, { detail: 'detailed' });
  await cut(shop, id, { ...PARTS, trim: '60' });
  shop.wait(60);
  await cut(shop, id, { trim: '60' });
  expect((await shop.call('animals.get', { id })).balance.suspects).toEqual([]);
});

it('does not say so of two totes that weigh the same in different containers', async () => {
  const shop = await freshDesk();
  const id = await takeIn(shop, { detail: 'detailed' });
  await cut(shop, id, { ...PARTS, trim: '65' });
  for (const [typed, tareTyped] of [
    ['64', '4'],
    ['62.5', '2.5'],
  ] as const) {
    shop.wait(60);
    await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'trim',
      typed,
      tareTyped,
      confirmed: true,
    });
  }
  // 445 lb of 400, but a tote that goes over the scale twice is in the same container.
  const { balance } = await shop.call('animals.get', { id });
  expect(balance.doubtful).toBe(true);
  expect(balance.suspects.some(({ twice }) => twice)).toBe(false);
});
