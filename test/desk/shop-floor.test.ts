/** What is kept beside a weight: where its number came from, where the packages lie, how closely the animal is weighed. */
import { describe, expect, it } from 'vitest';
import { detailFor } from '../../src/desk/input/detail.ts';
import { cut, freshDesk, takeIn } from './fresh-desk.ts';

const LB = 453.59237;

describe('where a number came from', () => {
  it('stands beside every weight of an animal and of a batch, corrections included', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const trim = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'trim',
      typed: '100.5 lb',
      source: 'scale',
    });
    await shop.call('table.correct', { weighingId: trim.weighingId, typed: '101', source: 'practice' });
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'none',
      targetFat: null,
      product: 'Ground',
    });
    await shop.call('grinder.weighIn', {
      batchId: batch.id,
      animalId: id,
      part: 'trim',
      typed: '50',
      source: 'scale',
    });
    await shop.call('grinder.pack', {
      batchId: batch.id,
      product: 'Ground',
      count: 49,
      typed: '49',
      source: 'practice',
    });
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings.map(({ typed, source }) => [typed, source])).toEqual([
      ['400', 'typed'],
      ['100.5 lb', 'scale'],
      ['101', 'practice'],
      ['50', 'scale'],
    ]);
    const { packages, weighedIn } = await shop.call('grinder.getBatch', { id: batch.id });
    expect([weighedIn[0]?.source, packages[0]?.source]).toEqual(['scale', 'practice']);
    expect(
      await shop.problem('table.weigh', {
        animalId: id,
        stage: 'cut',
        part: 'bone',
        typed: '9',
        source: 'guess',
      }),
    ).toMatchObject({ code: 'choice.source' });
  });
});

describe('the freezer place', () => {
  it('is kept with packages, outlives a correction, and is told with the animal and at pick-up', async () => {
    const shop = await freshDesk();
    const [one, two] = [await takeIn(shop), await takeIn(shop, { hunter: { name: 'Ben' } })];
    await cut(shop, one, { trim: '60' });
    await cut(shop, two, { trim: '40' });
    const steaks = await shop.call('table.weigh', {
      animalId: one,
      stage: 'packed',
      part: 'package',
      product: 'Steaks',
      count: 20,
      typed: '40',
      place: ' Freezer 2, shelf 3 ',
    });
    await shop.call('table.correct', { weighingId: steaks.weighingId, typed: '41' });
    const batch = await shop.call('grinder.start', {
      animals: [{ id: one }, { id: two }],
      fat: 'none',
      targetFat: null,
      product: 'Ground',
    });
    for (const [animalId, typed] of [
      [one, '60'],
      [two, '40'],
    ] as const)
      await shop.call('grinder.weighIn', { batchId: batch.id, animalId, part: 'trim', typed });
    const packs = { batchId: batch.id, product: 'Ground', count: 50 };
    await shop.call('grinder.pack', { ...packs, typed: '50', place: 'Freezer 1' });
    await shop.call('grinder.pack', { ...packs, typed: '49', place: 'Freezer 4' });
    expect(
      (await shop.call('grinder.getBatch', { id: batch.id })).packages.map(({ place }) => place),
    ).toEqual(['Freezer 1', 'Freezer 4']);
    const page = await shop.call('animals.get', { id: one });
    expect(page.packages.map(({ product, places }) => [product, places])).toEqual([
      ['Steaks', ['Freezer 2, shelf 3']],
      ['Ground', ['Freezer 1', 'Freezer 4']],
    ]);
    for (const id of [one, two])
      await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    expect((await shop.call('pickup.get', {})).map(({ id, places }) => [id, places])).toEqual([
      [one, ['Freezer 2, shelf 3', 'Freezer 1', 'Freezer 4']],
      [two, ['Freezer 1', 'Freezer 4']],
    ]);
  });

  it('belongs to packages only, and is not longer than a shelf label', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    expect(
      await shop.problem('table.weigh', { animalId, stage: 'cut', part: 'bone', typed: '9', place: 'A' }),
    ).toMatchObject({ code: 'input.invalid' });
    const packed = { animalId, stage: 'packed', part: 'package', product: 'Steaks', count: 1, typed: '9' };
    expect(await shop.problem('table.weigh', { ...packed, place: 'x'.repeat(41) })).toMatchObject({
      code: 'text.too-long',
    });
  });
});

describe('detailed or quick', () => {
  it.each([
    [1, 10, 'detailed'],
    [2, 10, 'quick'],
    [10, 10, 'quick'],
    [11, 10, 'detailed'],
    [21, 10, 'detailed'],
    [7, 1, 'detailed'],
    [4, 3, 'detailed'],
  ] as const)('ticket %i of every %i is %s', (number, every, detail) =>
    expect(detailFor(number, every)).toBe(detail),
  );

  it('follows the setting and the running number unless it is told', async () => {
    const shop = await freshDesk();
    await shop.call('shop.saveSettings', { changes: { detailEvery: 3 } });
    const told = [undefined, undefined, 'detailed', undefined, undefined, 'quick', 'quick'] as const;
    const kept: string[] = [];
    for (const detail of told) {
      const id = await takeIn(shop, detail === undefined ? {} : { detail }, null);
      kept.push((await shop.call('animals.get', { id })).detail);
    }
    expect(kept).toEqual(['detailed', 'quick', 'detailed', 'detailed', 'quick', 'quick', 'quick']);
  });

  it('changes at the table, and the book says who changed it', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('animals.setDetail', { id, detail: 'quick', by: 'MK' });
    expect((await shop.call('animals.get', { id })).detail).toBe('quick');
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock' });
    expect(await shop.problem('animals.setDetail', { id, detail: 'detailed' })).toMatchObject({
      code: 'animal.closed',
    });
  });
});

describe('undoing a correction', () => {
  it('puts the old reading back as a row of its own; all three stay to be read', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const old = await shop.call('table.weigh', {
      animalId: id,
      stage: 'cut',
      part: 'bone',
      typed: '91.5',
      tareTyped: '1.5',
      source: 'scale',
    });
    const wrong = await shop.call('table.correct', { weighingId: old.weighingId, typed: '9.15' });
    await shop.call('table.correct', {
      weighingId: wrong.weighingId,
      typed: '91.5 lb',
      tareTyped: '1.5',
      source: 'scale',
      reason: 'correction undone',
      confirmed: true,
    });
    const { weighings } = await shop.call('animals.get', { id });
    expect(
      weighings
        .slice(1)
        .map(({ typed, grams, source, voided, corrects }) => [
          typed,
          Math.round((grams / LB) * 100) / 100,
          source,
          voided?.reason ?? null,
          corrects,
        ]),
    ).toEqual([
      ['91.5', 90, 'scale', 'corrected', null],
      ['9.15', 7.65, 'typed', 'correction undone', old.weighingId],
      ['91.5 lb', 90, 'scale', null, wrong.weighingId],
    ]);
  });
});

describe('the account of a pooled batch', () => {
  it('adds up as it is shown, in whole steps of the scale', async () => {
    const shop = await freshDesk();
    const animals: { id: number }[] = [];
    for (const name of ['Ana', 'Ben', 'Cal']) {
      const id = await takeIn(shop, { hunter: { name } });
      await cut(shop, id, { trim: '33.33' });
      animals.push({ id });
    }
    const batch = await shop.call('grinder.start', {
      animals,
      fat: 'none',
      targetFat: null,
      product: 'Sausage',
    });
    for (const { id } of animals)
      await shop.call('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: '33.33' });
    await shop.call('grinder.pack', { batchId: batch.id, product: 'Sausage', count: 100, typed: '100' });
    const { owners } = await shop.call('grinder.getBatch', { id: batch.id });
    // 99.99 lb is 2000 steps of 0.05 lb, 667 + 667 + 666; each alone would round to 33.35 and make 100.05.
    const pounds = (grams: number) => Math.round((grams / LB) * 100) / 100;
    expect(owners.map((owner) => pounds(owner.shownLeanGrams))).toEqual([33.35, 33.35, 33.3]);
    expect(owners.map((owner) => pounds(owner.shownShareGrams))).toEqual([33.35, 33.35, 33.3]);
    expect(owners.map(({ packages }) => packages)).toEqual([34, 33, 33]);
    expect(owners.reduce((total, { shareGrams }) => total + shareGrams, 0)).toBeCloseTo(100 * LB, 6);
  });
});
