/** A part that was not weighed is unknown, not zero; and the weight that is asked about is the one that was wrong. */
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

/** A white-tail of `pounds`, cut into parts that add up, whose damage nobody weighed. */
async function deerWithoutDamageTote(shop: FreshDesk, pounds: number, chance: () => number): Promise<void> {
  const id = await takeIn(shop, { species: 'white-tail', detail: 'detailed' }, pounds.toFixed(1));
  const share = (mean: number, sd: number): string => (pounds * (mean + sd * chance())).toFixed(1);
  await cut(shop, id, {
    'whole cuts': share(0.24, 0.01),
    trim: share(0.3, 0.01),
    bone: share(0.23, 0.01),
    sinew: share(0.11, 0.005),
  });
  await shop.call('animals.setStage', { id, stage: 'packing' });
}

describe('unweighed parts', () => {
  it('are not learned as zero: after 30 deer without a damage tote, 2.1 lb of damage on 83.4 lb is plausible', async () => {
    const shop = await freshDesk();
    const { normal } = seededRandom(5);
    const before = await damageRange(shop);
    for (let i = 0; i < 30; i++) await deerWithoutDamageTote(shop, 70 + i, normal);
    const after = await damageRange(shop);
    // What is said of damage rests on the published figures as before, not on thirty zeros.
    expect(after.low).toBeGreaterThanOrEqual(before.low * 0.7);
    expect(after.high).toBeGreaterThan(before.high * 0.7);
    const id = await takeIn(shop, { species: 'white-tail', detail: 'detailed' }, '83.4');
    await cut(shop, id, { 'whole cuts': '20.0', trim: '25.0', bone: '19.2', sinew: '9.2', damage: '2.1' });
    await shop.call('animals.setStage', { id, stage: 'packing' });
    expect((await shop.call('animals.get', { id })).balance).toMatchObject({
      suspects: [],
      doubtful: false,
    });
  }, 30_000);
});

async function damageRange(shop: FreshDesk): Promise<{ low: number; high: number }> {
  const id = await takeIn(shop, { species: 'white-tail' }, '80');
  const { expected } = await shop.call('animals.get', { id });
  const damage = expected.find(({ part }) => part === 'damage');
  if (!damage) throw new Error('nothing is expected of damage');
  return damage;
}

describe('the doubtful weight', () => {
  it('is the duplicate, and no later weight is questioned with invented digits', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { detail: 'detailed' });
    await cut(shop, id, { 'whole cuts': '110', trim: '65' });
    await cut(shop, id, { trim: '60' });
    shop.wait(60);
    // Asked about at once, and saved all the same.
    const again = { animalId: id, stage: 'cut', part: 'trim', typed: '60' } as const;
    expect(await shop.problem('table.weigh', again)).toMatchObject({ with: { slip: 'weighed-twice' } });
    await shop.call('table.weigh', { ...again, confirmed: true });
    // Both are right, and with the second of them the parts weigh 25 lb more than the animal.
    await cut(shop, id, { bone: '92', sinew: '38' });
    const { balance, weighings } = await shop.call('animals.get', { id });
    expect(balance.suspects).toMatchObject([{ part: 'trim', typed: '60', twice: true, likely: null }]);
    // The second of the two, so that taking it back leaves the first.
    const [first] = weighings.filter(({ typed }) => typed === '60');
    expect(balance.suspects[0]?.weighingId).toBeGreaterThan(first?.id ?? 0);
  });

  it("may include a container of the shop's", async () => {
    const shop = await freshDesk();
    const other = await takeIn(shop, { detail: 'detailed' });
    await shop.call('table.weigh', {
      animalId: other,
      stage: 'cut',
      part: 'bone',
      typed: '150',
      tareTyped: '60',
    });
    const id = await takeIn(shop, { detail: 'detailed' });
    await cut(shop, id, { 'whole cuts': '100', trim: '130', sinew: '36', damage: '14', 'fat saved': '4' });
    // 94 lb of bone, and the 60 lb bin that was not taken off.
    await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'bone',
      typed: '154',
      confirmed: true,
    });
    await shop.call('animals.setStage', { id, stage: 'packing' });
    expect((await shop.call('animals.get', { id })).balance.suspects).toMatchObject([
      { part: 'bone', typed: '154', likely: { typed: '94 lb', kind: 'tare-left-in' } },
    ]);
  });

  it('comes with a suggestion where the weight is refused for exceeding the animal', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { detail: 'detailed' });
    await cut(shop, id, { 'whole cuts': '100', trim: '130' });
    expect(
      await shop.problem('table.weigh', { animalId: id, stage: 'cut', part: 'bone', typed: '945.0' }),
    ).toMatchObject({ kind: 'refused', code: 'weight.more-than-animal', with: { likely: '94.50 lb' } });
  });
});
