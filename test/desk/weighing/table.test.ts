import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;

describe('weighing at the table', () => {
  it('keeps the text as it was typed and derives grams from it', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, {}, '400 lb 8 oz');
    await cut(shop, id, { bone: '38.4kg', trim: '84,6' });
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings.map(({ typed, grams }) => [typed, grams])).toEqual([
      ['400 lb 8 oz', expect.closeTo(400.5 * LB, 6)],
      ['38.4kg', 38_400],
      ['84,6', expect.closeTo(84.6 * LB, 6)],
    ]);
  });

  it('keeps a fraction of a pound as it was typed, and as the exact weight that it is', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { bone: '84 lb 10/16', trim: '60lb½', 'whole cuts': '+58', sinew: '12 lb. 8 oz.' });
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings.slice(1).map(({ typed, grams }) => [typed, grams])).toEqual([
      ['84 lb 10/16', expect.closeTo(84.625 * LB, 9)],
      ['60lb½', expect.closeTo(60.5 * LB, 9)],
      ['+58', expect.closeTo(58 * LB, 9)],
      ['12 lb. 8 oz.', expect.closeTo(12.5 * LB, 9)],
    ]);
  });

  it('adds the loads of one weight, and keeps them as they were typed', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, {}, '210.5 + 189.5');
    await cut(shop, id, { bone: '61.2+58.4', trim: '84 lb 10 oz + 12 lb' });
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings.map(({ typed, unit, grams }) => [typed, unit, grams])).toEqual([
      ['210.5 + 189.5', 'lb', expect.closeTo(400 * LB, 6)],
      ['61.2+58.4', 'lb', expect.closeTo(119.6 * LB, 6)],
      ['84 lb 10 oz + 12 lb', 'oz', expect.closeTo(96.625 * LB, 6)],
    ]);
    await expect(cut(shop, id, { sinew: '12 + 3 kg' })).rejects.toThrow('reading.loads-mixed');
  });

  it('asks about a slip in one of the loads, and offers the loads', async () => {
    const shop = await freshDesk();
    const taken = shop.call('intake.takeIn', {
      hunter: { name: 'Ana Reyes' }, species: 'mule-deer', sex: 'male', age: 'adult', brought: 'skinned',
      weights: [{ stage: 'hanging', typed: '40.5+455' }],
    }); // prettier-ignore
    await expect(taken).rejects.toThrow(/weight\.unlikely.*"likely":"40.5 lb \+ 45 lb"/);
  });

  it.each([
    ['', 'reading.empty'],
    ['heavy', 'reading.unreadable'],
    ['-4', 'reading.negative'],
    ['0', 'reading.zero'],
    ['1,234', 'reading.ambiguous'],
    ['12 125', 'reading.ambiguous'],
    ['12²', 'reading.odd-digit'],
    ['12 lb 1/3', 'reading.fraction'],
    ['99999999', 'reading.too-heavy'],
  ])('refuses %j with %s and keeps nothing', async (typed, code) => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    expect(
      await shop.problem('table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed }),
    ).toMatchObject({ kind: 'invalid', code, field: 'typed' });
    expect((await shop.call('animals.get', { id })).weighings).toHaveLength(1);
  });

  it('refuses a part heavier than the animal, even when sure', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const input = { animalId: id, stage: 'cut', part: 'bone', typed: '412', confirmed: true };
    expect(await shop.problem('table.weigh', input)).toMatchObject({
      kind: 'refused',
      code: 'weight.more-than-animal',
      with: { base: 'hanging' },
    });
  });

  it('refuses a hanging weight above the weight received', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { weights: [{ stage: 'received', typed: '380' }] }, null);
    expect(
      await shop.problem('table.weigh', { animalId: id, stage: 'hanging', part: 'carcass', typed: '391' }),
    ).toMatchObject({
      kind: 'refused',
      code: 'weight.more-than-animal',
      with: { base: 'received' },
    });
  });

  it('asks about a weight absurd for the species, and keeps it when told to', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, {}, null);
    const input = { animalId: id, stage: 'hanging', part: 'carcass', typed: '4000' } as const;
    expect(await shop.problem('table.weigh', input)).toMatchObject({
      kind: 'conflict',
      code: 'weight.unlikely',
      field: 'typed',
    });
    expect(await shop.call('table.weigh', { ...input, confirmed: true })).toMatchObject({
      grams: expect.closeTo(4000 * LB, 3),
    });
  });

  it('offers the likely slip when the parts outweigh the animal', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'whole cuts': '100', trim: '130', sinew: '35' });
    expect(
      await shop.problem('table.weigh', { animalId: id, stage: 'cut', part: 'bone', typed: '208' }),
    ).toMatchObject({
      kind: 'conflict',
      code: 'weight.over',
      with: { likely: expect.any(String), overGrams: expect.closeTo((465 + 8 - 400 * 1.005) * LB, 1) },
    });
  });

  it('asks when packages together outweigh their animal, each of which could be', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop, {}, '100');
    const pack = { animalId, stage: 'packed', part: 'package', product: 'Steaks', count: 30 } as const;
    await shop.call('table.weigh', { ...pack, typed: '60' });
    expect(await shop.problem('table.weigh', { ...pack, typed: '55' })).toMatchObject({
      kind: 'conflict',
      code: 'weight.over',
      with: { part: 'package', overGrams: expect.closeTo(15 * 453.59237, 6) as number },
    });
    const kept = await shop.call('table.weigh', { ...pack, typed: '55', confirmed: true });
    // Corrected to what it was, it is one package weight and not two.
    await shop.call('table.correct', { weighingId: kept.weighingId, typed: '39.5', reason: 'misread' });
    shop.desk.close();
  });

  it('asks when the same weight comes twice within seconds, not later', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '40.2' });
    const again = { animalId: id, stage: 'cut', part: 'trim', typed: '40.2' } as const;
    expect(await shop.problem('table.weigh', again)).toMatchObject({
      kind: 'conflict',
      code: 'weight.same-again',
    });
    shop.wait(60);
    await shop.call('table.weigh', again);
    expect((await shop.call('animals.get', { id })).trimGrams).toBeCloseTo(80.4 * LB, 6);
  });

  it('takes the tare off and refuses one heavier than the tote', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const weighed = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'trim',
      typed: '42.00',
      tareTyped: '1.20',
    });
    expect(weighed.grams).toBeCloseTo(40.8 * LB, 6);
    expect(
      await shop.problem('table.weigh', {
        animalId: id,
        stage: 'cut',
        part: 'trim',
        typed: '1',
        tareTyped: '1.2',
      }),
    ).toMatchObject({ code: 'reading.tare' });
  });

  it('corrects by a new row that voids the old, and both stay to be read', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const { weighingId } = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'bone',
      typed: '91.5',
    });
    await shop.call('table.correct', { weighingId, typed: '95.1', reason: 'digits swapped', by: 'RB' });
    const { weighings, ladder } = await shop.call('animals.get', { id });
    expect(weighings).toHaveLength(3);
    expect(weighings[1]).toMatchObject({ typed: '91.5', voided: { reason: 'digits swapped', by: 'RB' } });
    expect(weighings[2]).toMatchObject({ typed: '95.1', voided: null, corrects: weighingId });
    expect(ladder?.pieces).toEqual([
      { part: 'bone', grams: expect.closeTo(95.1 * LB, 6), share: expect.closeTo(95.1 / 400, 9) },
    ]);
    expect(await shop.problem('table.void', { weighingId, reason: 'twice' })).toMatchObject({
      code: 'weighing.voided',
    });
  });

  it('keeps the container of a corrected weight in the unit that it was weighed in', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const tote = { stage: 'cut', part: 'trim', typed: '42.0', tareTyped: '1.2' } as const;
    const { weighingId } = await shop.call('table.weigh', { animalId: id, ...tote });
    await shop.call('shop.saveSettings', { changes: { unit: 'kg', step: 0.02 } });
    const correct = (of: number, typed: string, tareTyped?: string) =>
      shop.call('table.correct', { weighingId: of, typed, tareTyped, reason: 'misread', confirmed: true });
    const kept = await correct(weighingId, '24.0 lb');
    expect(kept.grams).toBeCloseTo(22.8 * LB, 6);
    const asBefore = await correct(kept.weighingId, '25.0 lb', '1.2');
    expect(asBefore.grams).toBeCloseTo(23.8 * LB, 6);
    const another = await correct(asBefore.weighingId, '20', '1.5');
    expect(another.grams).toBeCloseTo(18_500, 6);
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings.slice(1).map(({ tareTyped, tareUnit }) => [tareTyped, tareUnit])).toEqual([
      ['1.2', 'lb'],
      ['1.2', 'lb'],
      ['1.2', 'lb'],
      ['1.5', 'kg'],
    ]);
  });

  it('leaves everything as it was when a correction is refused', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const { weighingId } = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'bone',
      typed: '91.5',
    });
    expect(await shop.problem('table.correct', { weighingId, typed: 'ninety' })).toMatchObject({
      code: 'reading.unreadable',
    });
    expect((await shop.call('animals.get', { id })).weighings[1]).toMatchObject({
      typed: '91.5',
      voided: null,
    });
  });

  it('needs no part at all: hanging weight and packages are enough', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('table.weigh', {
      animalId: id,
      stage: 'packed',
      part: 'package',
      product: 'Ground',
      count: 200,
      typed: '212',
    });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    expect(await shop.call('animals.get', { id })).toMatchObject({
      stage: 'ready',
      takeHomeGrams: expect.closeTo(212 * LB, 6),
      balance: { suspects: [], overGrams: 0 },
    });
  });

  it('names the mistyped bone of a fully weighed elk, and says nothing once it is mended', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    // 400 lb: 100 + 128 + 4 + 36 + 96 + 14 = 378, and about 22 lb of shrink and drip.
    await cut(shop, id, {
      'whole cuts': '100.0',
      trim: '128.0',
      'fat saved': '4.0',
      sinew: '36.0',
      damage: '14.0',
    });
    const bone = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'bone',
      typed: '69.0',
      confirmed: true,
    });
    await shop.call('table.correct', { weighingId: bone.weighingId, typed: '196.0', confirmed: true });
    const page = await shop.call('animals.get', { id });
    expect(page.balance.suspects[0]).toMatchObject({
      part: 'bone',
      typed: '196.0',
      likely: { kind: expect.any(String), typed: expect.any(String) },
    });
    await shop.call('table.correct', {
      weighingId: page.balance.suspects[0]?.weighingId ?? 0,
      typed: '96.0',
      reason: 'misread',
    });
    expect((await shop.call('animals.get', { id })).balance).toMatchObject({ suspects: [], overGrams: 0 });
  });
});

describe('an animal whose cutting goes on', () => {
  it('asks about a tote that is too heavy, not about parts that are still to come', async () => {
    const shop = await freshDesk();
    // 109 lb of bone is much for a bull of 400 lb, and 190 may then be another slip.
    const id = await takeIn(shop, { sex: 'female' });
    await cut(shop, id, { trim: '60', sinew: '12' });
    expect((await shop.call('animals.get', { id })).balance.suspects).toEqual([]);
    await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'bone',
      typed: '190.0',
      confirmed: true,
    });
    expect((await shop.call('animals.get', { id })).balance.suspects).toMatchObject([
      { part: 'bone', typed: '190.0', likely: { typed: '109.0 lb' } },
    ]);
  });
});
