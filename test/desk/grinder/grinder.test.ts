import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
/** USDA NDB 17338 (elk, ground, raw) and 10004 (pork back fat, raw). */
const ELK = 0.0882;
const BACK_FAT = 0.8869;

async function elkWithTrim(shop: FreshDesk, trim = '100.00') {
  const id = await takeIn(shop);
  await cut(shop, id, { trim, 'fat saved': '3.00' });
  return id;
}

describe('planning a grind', () => {
  it('gives the fat to add in whole scale steps', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    await shop.call('fat.receive', {
      source: 'pork-back-fat',
      typed: '40',
      costTyped: '1.60',
      costUnit: 'lb',
    });
    const plan = await shop.call('grinder.plan', {
      animals: [{ id }],
      fat: 'pork-back-fat',
      targetFat: 0.125,
    });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    // Pearson square: 100 × (12.5 − 8.82) / (88.69 − 12.5) = 4.830 lb; the scale shows 0.05 lb.
    expect((100 * (0.125 - ELK)) / (BACK_FAT - 0.125)).toBeCloseTo(4.83, 3);
    expect(plan.parts.find(({ kind }) => kind === 'fat')?.grams).toBeCloseTo(4.85 * LB, 6);
    expect(plan.fat).toBeCloseTo((100 * ELK + 4.85 * BACK_FAT) / 104.85, 9);
    expect(plan.batchGrams).toBeCloseTo(104.85 * LB, 6);
    expect(plan.costMinor).toBe(776);
    expect(plan.fatRange.low).toBeLessThan(plan.fat);
    expect(plan.fatRange.high).toBeGreaterThan(plan.fat);
  });

  it('says by how much own fat falls short of 30 %, and what is nearest', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const plan = await shop.call('grinder.plan', { animals: [{ id }], fat: 'own', targetFat: 0.3 });
    if (plan.kind !== 'not enough fat') throw new Error(plan.kind);
    const own = 0.7089;
    const need = (100 * (0.3 - ELK)) / (own - 0.3);
    expect(plan.haveGrams).toBeCloseTo(3 * LB, 6);
    expect(plan.needGrams).toBeCloseTo(need * LB, 3);
    expect(plan.missingGrams).toBeCloseTo((need - 3) * LB, 3);
    expect(plan.nearest.fat).toBeCloseTo((100 * ELK + 3 * own) / 103, 9);
  });

  it('says when the trim is already fatter than asked, and how much leaner trim would mend it', async () => {
    const shop = await freshDesk();
    const bear = await takeIn(shop, { species: 'black-bear' }, '150');
    await cut(shop, bear, { trim: '50' });
    const alone = await shop.call('grinder.plan', {
      animals: [{ id: bear }],
      fat: 'pork-back-fat',
      targetFat: 0.05,
    });
    expect(alone).toMatchObject({ kind: 'lean enough', leanToAddGrams: null });
    const moose = await takeIn(shop, { species: 'moose' }, '500');
    await cut(shop, moose, { trim: '100' });
    const beside = await shop.call('grinder.plan', {
      animals: [{ id: bear }],
      fat: 'pork-back-fat',
      targetFat: 0.05,
    });
    if (beside.kind !== 'lean enough' || beside.leanToAddGrams === null) throw new Error(beside.kind);
    // x lb of moose (NDB 17172, 0.74 %): (50 × 8.30 + x × 0.74) / (50 + x) = 5 → x = 50 × 3.30 / 4.26.
    expect(beside.leanToAddGrams / LB).toBeCloseTo((50 * 3.3) / 4.26, 6);
  });

  it('says when a fat is too lean for the target', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    await shop.call('fat.receive', { source: 'pork-trim-72', typed: '40' });
    expect(
      await shop.call('grinder.plan', { animals: [{ id }], fat: 'pork-trim-72', targetFat: 0.3 }),
    ).toMatchObject({ kind: 'out of reach', richest: 0.28 });
  });

  it('uses older lots of one price first and more than one lot where one is short', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const first = await shop.call('fat.receive', {
      source: 'beef-suet',
      typed: '4',
      costTyped: '2',
      costUnit: 'lb',
    });
    const second = await shop.call('fat.receive', {
      source: 'beef-suet',
      typed: '50',
      costTyped: '2',
      costUnit: 'lb',
    });
    const plan = await shop.call('grinder.plan', { animals: [{ id }], fat: 'beef-suet', targetFat: 0.125 });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    const fat = plan.parts.filter(({ kind }) => kind === 'fat');
    expect(fat.map(({ fatLotId }) => fatLotId)).toEqual([first.id, second.id]);
    expect(fat[0]?.grams).toBeCloseTo(4 * LB, 6);
  });

  it('opens no newer lot before the older ones of its price are used up, however little another order would cost', async () => {
    const shop = await freshDesk();
    const step = 0.02;
    await shop.call('shop.saveSettings', { changes: { step } });
    const id = await elkWithTrim(shop, '120');
    const lots = [28.53, 6.02, 14.61, 24.48];
    const bought: number[] = [];
    for (const lb of lots)
      bought.push(
        (
          await shop.call('fat.receive', {
            source: 'beef-suet',
            typed: `${lb}`,
            costTyped: '3.35',
            costUnit: 'lb',
          })
        ).id,
      );
    let several = 0;
    for (let lb = 40; lb <= 120; lb += 0.5) {
      const animals = [{ id, grams: lb * LB }];
      const plan = await shop.call('grinder.plan', { animals, fat: 'beef-suet', targetFat: 0.3 });
      if (plan.kind !== 'plan') throw new Error(plan.kind);
      const used = bought.map(
        (lotId) => (plan.parts.find(({ fatLotId }) => fatLotId === lotId)?.grams ?? 0) / LB,
      );
      const last = used.findLastIndex((pounds) => pounds > 0);
      if (last > 0) several++;
      for (let i = 0; i < last; i++) expect((lots[i] as number) - (used[i] as number)).toBeLessThan(step);
    }
    expect(several).toBeGreaterThan(10);
  });

  it('takes the lots that are named in order of their age, whatever order they are named in', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const bought = async () => (await shop.call('fat.receive', { source: 'beef-suet', typed: '20' })).id;
    const [older, newer] = [await bought(), await bought()];
    const plan = await shop.call('grinder.plan', {
      animals: [{ id }],
      fat: 'beef-suet',
      lotIds: [newer, older],
      targetFat: 0.125,
    });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    const fat = plan.parts.filter(({ kind }) => kind === 'fat');
    expect(fat.map(({ fatLotId }) => fatLotId)).toEqual([older]);
  });

  it('opens no dearer, leaner lot to make up for half a scale step of a fat one', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop, '20');
    const buy = async (typed: string, fatPercent: number, costTyped: string) =>
      (
        await shop.call('fat.receive', {
          source: 'pork-back-fat',
          typed,
          fatPercent,
          costTyped,
          costUnit: 'lb',
        })
      ).id;
    const dear = await buy('30', 40, '5');
    const cheap = await buy('10', 95, '1');
    for (const targetFat of [0.1, 0.105, 0.11, 0.115, 0.12, 0.125, 0.13, 0.135, 0.14, 0.145, 0.15]) {
      const lotIds = [dear, cheap];
      const plan = await shop.call('grinder.plan', {
        animals: [{ id }],
        fat: 'pork-back-fat',
        targetFat,
        lotIds,
      });
      if (plan.kind !== 'plan') throw new Error(plan.kind);
      expect(plan.parts.flatMap(({ fatLotId }) => fatLotId ?? [])).toEqual([cheap]);
      // Half a step of 0.05 lb in the batch of some 22 lb: at most a tenth of a percent of fat.
      expect(Math.abs(plan.fat - targetFat)).toBeLessThan(0.001);
    }
  });

  it('plans a handful of trim, of which half a scale step of fat is more than the target', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '0.05', 'fat saved': '3' });
    const asked = { animals: [{ id }], fat: 'own', targetFat: 0.1 };
    const plan = await shop.call('grinder.plan', asked);
    expect(plan.kind).toBe('plan');
    expect(await shop.call('grinder.start', { ...asked, product: 'Ground' })).toMatchObject({
      name: 'G26-001',
    });
  });
});

describe('a batch', () => {
  it('recomputes its fat from what was really weighed in and says what would top it up', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const lot = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' });
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'pork-back-fat',
      targetFat: 0.125,
      product: 'Ground',
    });
    await shop.call('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: '100.00' });
    await shop.call('grinder.weighIn', {
      batchId: batch.id,
      fatLotId: lot.id,
      part: 'fat added',
      typed: '4.75',
    });
    const page = await shop.call('grinder.getBatch', { id: batch.id });
    const fat = (100 * ELK + 4.75 * BACK_FAT) / 104.75;
    expect(page.fat).toBeCloseTo(fat, 9);
    expect(page.toWeigh).toEqual([]);
    const topUp = (104.75 * (0.125 - fat)) / (BACK_FAT - 0.125);
    expect(page.topUp?.grams).toBeCloseTo(Math.round(topUp / 0.05) * 0.05 * LB, 6);
    const [left] = (await shop.call('fat.listLots', {})).filter((one) => one.id === lot.id);
    expect(left?.leftGrams).toBeCloseTo(35.25 * LB, 6);
  });

  it('is shown with its fat when that is used up, planned or weighed in, beside what is left of other lots', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const bought = async (typed: string) =>
      (await shop.call('fat.receive', { source: 'pork-back-fat', typed })).id;
    const [weighed, planned] = [await bought('5'), await bought('30')];
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'pork-back-fat',
      lotIds: [planned],
      targetFat: 0.125,
      product: 'Ground',
    });
    await shop.call('grinder.weighIn', {
      batchId: batch.id,
      fatLotId: weighed,
      part: 'fat added',
      typed: '5',
    });
    await shop.call('fat.discard', { lotId: planned, reason: 'spoilt' });
    const left = await bought('12');
    const lots = async (input: { usedUp?: boolean; batchId?: number }) =>
      (await shop.call('fat.listLots', input)).filter(({ ticket }) => !ticket).map((one) => one.id);
    expect(await lots({})).toEqual([weighed, planned, left]);
    expect(await lots({ usedUp: false })).toEqual([left]);
    expect(await lots({ usedUp: false, batchId: batch.id })).toEqual([weighed, planned, left]);
  });

  it('refuses trim that was never weighed in and fat that is not there, and keeps neither', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const lot = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '5' });
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'none',
      targetFat: null,
      product: 'Ground',
    });
    expect(
      await shop.problem('grinder.weighIn', {
        batchId: batch.id,
        animalId: id,
        part: 'trim',
        typed: '100.5',
      }),
    ).toMatchObject({ kind: 'refused', code: 'trim.not-enough' });
    expect(
      await shop.problem('grinder.weighIn', {
        batchId: batch.id,
        fatLotId: lot.id,
        part: 'fat added',
        typed: '5.5',
      }),
    ).toMatchObject({ kind: 'refused', code: 'fat.not-enough' });
    expect((await shop.call('grinder.getBatch', { id: batch.id })).weighedIn).toEqual([]);
  });

  it('gives fat back when its weight is voided', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const lot = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '10' });
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'pork-back-fat',
      targetFat: 0.05,
      product: 'Ground',
    });
    const { weighingId } = await shop.call('grinder.weighIn', {
      batchId: batch.id,
      fatLotId: lot.id,
      part: 'fat added',
      typed: '6',
    });
    await shop.call('table.correct', { weighingId, typed: '4.2' });
    const left = async () =>
      (await shop.call('fat.listLots', {})).find((one) => one.id === lot.id)?.leftGrams ?? 0;
    expect(await left()).toBeCloseTo(5.8 * LB, 6);
    const page = await shop.call('grinder.getBatch', { id: batch.id });
    await shop.call('table.void', { weighingId: page.weighedIn.at(-1)?.id ?? 0, reason: 'wrong batch' });
    expect(await left()).toBeCloseTo(10 * LB, 6);
  });

  it('keeps trim from being voided once it went through the grinder', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'none',
      targetFat: null,
      product: 'Ground',
    });
    await shop.call('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: '100' });
    const trim = (await shop.call('animals.get', { id })).weighings.find(
      ({ part, stage }) => part === 'trim' && stage === 'cut',
    );
    expect(await shop.problem('table.void', { weighingId: trim?.id, reason: 'oops' })).toMatchObject({
      kind: 'refused',
      code: 'weighing.used',
    });
  });

  it('shares a pooled batch by lean put in, to the last package', async () => {
    const shop = await freshDesk();
    const names = ['Ana', 'Ben', 'Cal', 'Dee', 'Eli'];
    const trims = ['31.00', '17.50', '44.25', '9.00', '22.10'];
    const animals: { id: number }[] = [];
    for (const [i, name] of names.entries()) {
      const id = await takeIn(shop, { hunter: { name } });
      await cut(shop, id, { trim: trims[i] ?? '' });
      animals.push({ id });
    }
    const batch = await shop.call('grinder.start', {
      animals,
      fat: 'none',
      targetFat: null,
      product: 'Sausage',
    });
    for (const [i, { id }] of animals.entries())
      await shop.call('grinder.weighIn', {
        batchId: batch.id,
        animalId: id,
        part: 'trim',
        typed: trims[i] ?? '',
      });
    await shop.call('grinder.pack', { batchId: batch.id, product: 'Sausage', count: 101, typed: '122.9' });
    const { owners } = await shop.call('grinder.getBatch', { id: batch.id });
    // Quotas of 101 packages: 123.85 lb in all; 25.28, 14.27, 36.09, 7.34, 18.02 → the one left over goes to the largest remainder.
    expect(owners.map(({ packages }) => packages)).toEqual([25, 14, 36, 8, 18]);
    expect(owners.reduce((total, { shareGrams }) => total + shareGrams, 0)).toBeCloseTo(122.9 * LB, 6);
  });

  it('is not pooled with a hunter who refuses', async () => {
    const shop = await freshDesk();
    const one = await elkWithTrim(shop);
    const two = await takeIn(shop, { hunter: { name: 'Vera Stone', refusesPooling: true } });
    await cut(shop, two, { trim: '20' });
    expect(
      await shop.problem('grinder.start', {
        animals: [{ id: one }, { id: two }],
        fat: 'none',
        targetFat: null,
        product: 'Sausage',
      }),
    ).toMatchObject({ kind: 'refused', code: 'batch.no-pooling', with: { hunter: 'Vera Stone' } });
  });

  it('takes no meat of a hunter who came to refuse pooling after it was begun', async () => {
    const shop = await freshDesk();
    const [own, other] = [await takeIn(shop), await takeIn(shop, { hunter: { name: 'Ray Ortega' } })];
    for (const id of [own, other]) await cut(shop, id, { trim: '60' });
    const { id: batchId } = await shop.call('grinder.start', {
      animals: [{ id: own }, { id: other }], fat: 'none', targetFat: null, product: 'Ground',
    }); // prettier-ignore
    await shop.call('grinder.weighIn', { batchId, animalId: other, part: 'trim', typed: '60' });
    await shop.call('animals.edit', {
      id: own,
      changes: { owner: { name: 'Lee Hart', refusesPooling: true } },
      reason: 'wrong hunter',
    });
    expect(
      await shop.problem('grinder.weighIn', { batchId, animalId: own, part: 'trim', typed: '60' }),
    ).toMatchObject({
      kind: 'refused',
      code: 'batch.no-pooling',
      with: { hunter: 'Lee Hart', ticket: '26-0001' },
    });
    shop.desk.close();
  });

  it('is not begun with an animal that was put on hold while the plan was worked out', async () => {
    const shop = await freshDesk();
    const [first, second] = [await takeIn(shop), await takeIn(shop)];
    for (const id of [first, second]) await cut(shop, id, { trim: '60' });
    const begun = shop.desk.call('grinder.start', {
      animals: [{ id: first }, { id: second }], fat: 'none', targetFat: null, product: 'Ground',
    }); // prettier-ignore
    await shop.call('animals.hold', { id: first, reason: 'sample', sample: 'L26-118' });
    expect(await begun).toMatchObject({ ok: false, problem: { code: 'cut.held' } });
    expect((await shop.call('grinder.get', {})).open).toEqual([]);
    shop.desk.close();
  });

  it('does not let more out than went in', async () => {
    const shop = await freshDesk();
    const id = await elkWithTrim(shop);
    const batch = await shop.call('grinder.start', {
      animals: [{ id }],
      fat: 'none',
      targetFat: null,
      product: 'Ground',
    });
    expect(
      await shop.problem('grinder.pack', { batchId: batch.id, product: 'Ground', count: 10, typed: '10' }),
    ).toMatchObject({ code: 'batch.nothing-in' });
    await shop.call('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: '100' });
    expect(
      await shop.problem('grinder.pack', { batchId: batch.id, product: 'Ground', count: 103, typed: '103' }),
    ).toMatchObject({ code: 'batch.more-out' });
    await shop.call('grinder.pack', { batchId: batch.id, product: 'Ground', count: 99, typed: '99.1' });
    await shop.call('grinder.finish', { batchId: batch.id });
    expect(
      await shop.problem('grinder.weighIn', { batchId: batch.id, animalId: id, part: 'trim', typed: '1' }),
    ).toMatchObject({ code: 'batch.done' });
  });
});
