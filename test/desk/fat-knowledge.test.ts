/** What fat tests teach, followed by hand from the scale to the next plan. Spreads: `resources/species.json`, `fats.json`. */
import { beforeEach, describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from './fresh-desk.ts';

const LB = 453.59237;
/** USDA NDB 17172 (moose), 17166 (elk), 17164 (deer), 10004 (pork back fat); each ± the profile's spread. */
const MOOSE = { mean: 0.0074, sd: 0.02 };
const ELK = { mean: 0.0145, sd: 0.025 };
const DEER = { mean: 0.0242, sd: 0.02 };
const BACK_FAT = { mean: 0.8869, sd: 0.03 };
/** A quick fat test's own spread. */
const TEST_SD = 0.01;
/** Of a species' variance, what is doubt about its mean; the rest is its animals' own. */
const MEAN_SHARE = 0.75;

let shop: FreshDesk;
beforeEach(async () => {
  shop = await freshDesk();
});

async function animal(species: string, trim = '40.00'): Promise<number> {
  const id = await takeIn(shop, { species }, species === 'moose' ? '500' : '150');
  await cut(shop, id, { trim });
  return id;
}

type Weights = Record<number, string>;

/** Begins a grind of these animals and weighs their trim in. */
async function begin(trim: Weights, fat: Weights = {}): Promise<number> {
  const animals = Object.keys(trim).map((id) => ({ id: Number(id) }));
  const { id: batchId } = await shop.call('grinder.start', {
    animals,
    fat: 'none',
    targetFat: null,
    product: 'Ground',
  });
  for (const [id, typed] of Object.entries(trim))
    await shop.call('grinder.weighIn', { batchId, animalId: Number(id), part: 'trim', typed });
  for (const [id, typed] of Object.entries(fat))
    await shop.call('grinder.weighIn', { batchId, fatLotId: Number(id), part: 'fat added', typed });
  return batchId;
}

async function test(batchId: number, percent: number): Promise<void> {
  await shop.call('grinder.fatTest', { batchId, percent, method: 'Quick tester' });
}

async function finish(batchId: number): Promise<void> {
  await shop.call('grinder.pack', { batchId, product: 'Ground', count: 5, typed: '10' });
  await shop.call('grinder.finish', { batchId });
}

async function tested(percent: number, trim: Weights, fat: Weights = {}): Promise<number> {
  const batchId = await begin(trim, fat);
  await test(batchId, percent);
  await finish(batchId);
  return batchId;
}

async function believed(id: number): Promise<{ mean: number; sd: number } | undefined> {
  return (await shop.call('grinder.look', {})).waiting.find((row) => row.id === id)?.trimFat;
}

const fatNow = async (batchId: number) => (await shop.call('grinder.open', { id: batchId })).fat;

describe('a fat test of one animal', () => {
  // S = 0.02² + 0.01² = 0.0005; the test lies 0.03 − 0.0074 = 0.0226 above what was believed.
  const S = MOOSE.sd ** 2 + TEST_SD ** 2;
  const surprise = 0.03 - MOOSE.mean;
  const ofAnimal = MOOSE.sd ** 2 / S;
  const ofSpecies = (MEAN_SHARE * MOOSE.sd ** 2) / S;

  it('moves what is left of its trim, and less so the next animal of its species, and no other', async () => {
    const [first, next, elk] = [await animal('moose'), await animal('moose'), await animal('elk')];
    await tested(3, { [first]: '20.00' });
    const own = await believed(first);
    expect(own?.mean).toBeCloseTo(MOOSE.mean + ofAnimal * surprise, 12);
    expect(own?.mean).toBeCloseTo(0.02548, 12);
    expect(own?.sd).toBeCloseTo(Math.sqrt(MOOSE.sd ** 2 * (1 - ofAnimal)), 12);
    const other = await believed(next);
    expect(other?.mean).toBeCloseTo(MOOSE.mean + ofSpecies * surprise, 12);
    expect(other?.mean).toBeCloseTo(0.02096, 12);
    expect(other?.sd).toBeCloseTo(Math.sqrt(MOOSE.sd ** 2 - (MEAN_SHARE * MOOSE.sd ** 2) ** 2 / S), 12);
    expect(await believed(elk)).toEqual(ELK);
  });

  it("moves the next moose's plan and what is weighed in of it", async () => {
    const [first, next] = [await animal('moose'), await animal('moose', '100.00')];
    await shop.call('fat.buy', { source: 'pork-back-fat', typed: '40' });
    await tested(3, { [first]: '40.00' });
    const lean = MOOSE.mean + ofSpecies * surprise;
    const plan = await shop.call('grinder.plan', {
      animals: [{ id: next }],
      fat: 'pork-back-fat',
      targetFat: 0.125,
    });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    // Pearson square: 100 × (12.5 − 2.096) / (88.69 − 12.5) = 13.655 lb, 13.65 on the scale; untaught it was 15.45.
    expect((100 * (0.125 - lean)) / (BACK_FAT.mean - 0.125)).toBeCloseTo(13.655, 3);
    const [trim, fat] = [plan.parts[0], plan.parts[1]];
    expect(fat?.grams).toBeCloseTo(13.65 * LB, 6);
    expect(trim?.fat).toBeCloseTo(lean, 12);
    expect(plan.fat).toBeCloseTo((100 * lean + 13.65 * BACK_FAT.mean) / 113.65, 9);
    const page = await shop.call('grinder.open', { id: await begin({ [next]: '50.00' }) });
    expect(page.fat).toBeCloseTo(lean, 12);
    expect(page.weighedIn[0]?.fat).toBeCloseTo(lean, 12);
    const sd = Math.sqrt(MOOSE.sd ** 2 - (MEAN_SHARE * MOOSE.sd ** 2) ** 2 / S);
    // 0.95-quantile of the normal distribution
    expect(page.fatRange?.high).toBeCloseTo(lean + 1.6448536269514722 * sd, 12);
  });

  it('moves the fat that the next quote asks to buy', async () => {
    const ask = async () =>
      shop.call('quote.work', {
        species: 'moose',
        brought: 'skinned',
        stage: 'hanging',
        typed: '500',
        instructions: {
          cutsShare: 0.4,
          fat: 'pork-back-fat',
          targetFat: 0.125,
          grindProduct: 'Ground',
          packageGrams: LB,
          extras: [],
          note: '',
        },
      });
    const before = await ask();
    const id = await animal('moose');
    await tested(4, { [id]: '40.00' });
    // One animal tested at 4 %: the species' mean moves by 0.75 sd² / (sd² + test sd²) of the surprise.
    const mean =
      MOOSE.mean + ((MEAN_SHARE * MOOSE.sd ** 2) / (MOOSE.sd ** 2 + TEST_SD ** 2)) * (0.04 - MOOSE.mean);
    const perTrim = (fat: number): number => (0.125 - fat) / (BACK_FAT.mean - 0.125);
    const trim = (quote: typeof before): number =>
      quote.parts.find(({ part }) => part === 'trim')?.grams.mean ?? 0;
    const after = await ask();
    expect(before.fatToBuyGrams.mean / trim(before)).toBeCloseTo(perTrim(MOOSE.mean), 9);
    expect(after.fatToBuyGrams.mean / trim(after)).toBeCloseTo(perTrim(mean), 9);
  });

  it('changes neither its own batch nor one begun before it, and the season shows both', async () => {
    const [first, next, last] = [await animal('moose'), await animal('moose'), await animal('moose')];
    const earlier = await begin({ [last]: '40.00' });
    const batch = await begin({ [first]: '40.00' });
    const later = await begin({ [next]: '40.00' });
    const before = await shop.call('grinder.open', { id: batch });
    await test(batch, 3);
    await finish(batch);
    const after = await shop.call('grinder.open', { id: batch });
    expect(after.fat).toBeCloseTo(MOOSE.mean, 12);
    expect(after.fat).toBe(before.fat);
    expect(after.fatRange).toEqual(before.fatRange);
    const lean = MOOSE.mean + ofSpecies * surprise;
    expect(await fatNow(earlier)).toBeCloseTo(MOOSE.mean, 12);
    expect(await fatNow(later)).toBeCloseTo(lean, 12);
    const { batches } = await shop.call('season.fat', {});
    expect(batches.map(({ id, weighedIn, tested: shown }) => [id, weighedIn, shown])).toEqual([
      [earlier, expect.closeTo(MOOSE.mean, 12), null],
      [batch, expect.closeTo(MOOSE.mean, 12), 0.03],
      [later, expect.closeTo(lean, 12), null],
    ]);
  });

  it('goes on teaching when the animal has gone home, and adds up with the next test', async () => {
    const [first, second, third] = [await animal('moose'), await animal('moose'), await animal('moose')];
    await tested(3, { [first]: '40.00' });
    await shop.call('animals.setStage', { id: first, stage: 'ready' });
    await shop.call('pickup.release', { id: first, to: 'Dana Whitlock' });
    const taught = await believed(third);
    expect(taught?.mean).toBeCloseTo(MOOSE.mean + ofSpecies * surprise, 12);
    await tested(3, { [second]: '40.00' });
    // Two animals tested alike are a test of the species: mean 0.0226 above, variance (0.01² + 0.01²) / 2 about it.
    const about = ((1 - MEAN_SHARE) * MOOSE.sd ** 2 + TEST_SD ** 2) / 2;
    const ofMean = MEAN_SHARE * MOOSE.sd ** 2;
    const now = await believed(third);
    expect(now?.mean).toBeCloseTo(MOOSE.mean + (ofMean / (ofMean + about)) * surprise, 12);
    expect(now?.sd).toBeLessThan(taught?.sd ?? 0);
  });

  it('is forgotten when what it was a test of is taken back, and follows a correction', async () => {
    const [first, next] = [await animal('moose'), await animal('moose')];
    const [lot] = [await shop.call('fat.buy', { source: 'pork-back-fat', typed: '40' })];
    const batch = await tested(10, { [first]: '20.00' }, { [lot.id]: '1.00' });
    const wrong = await believed(next);
    expect(wrong?.mean).toBeGreaterThan(MOOSE.mean);
    const page = await shop.call('grinder.open', { id: batch });
    const weighings = (part: string) => page.weighedIn.find((row) => row.part === part)?.id ?? 0;
    shop.wait(3600);
    await shop.call('table.correct', { weighingId: weighings('fat added'), typed: '2.30' });
    // 20 lb of moose and 2.3 lb of back fat were foretold at 9.81 %, so that 10 % is hardly a surprise.
    const shares = [20 / 22.3, 2.3 / 22.3] as const;
    const spread = (shares[0] * MOOSE.sd) ** 2 + (shares[1] * BACK_FAT.sd) ** 2 + TEST_SD ** 2;
    const moved = (shares[0] * MEAN_SHARE * MOOSE.sd ** 2) / spread;
    const foretold = shares[0] * MOOSE.mean + shares[1] * BACK_FAT.mean;
    expect((await believed(next))?.mean).toBeCloseTo(MOOSE.mean + moved * (0.1 - foretold), 12);
    for (const row of (await shop.call('grinder.open', { id: batch })).weighedIn)
      if (!row.voided) await shop.call('table.void', { weighingId: row.id, reason: 'wrong batch' });
    expect(await believed(next)).toEqual(MOOSE);
  });

  it('teaches only of a finished grind: not while open, and not when more went in after it', async () => {
    const [first, next] = [await animal('moose'), await animal('moose')];
    const batch = await begin({ [first]: '20.00' });
    await test(batch, 3);
    expect(await believed(next)).toEqual(MOOSE);
    shop.wait(60);
    await shop.call('grinder.weighIn', { batchId: batch, animalId: first, part: 'trim', typed: '10.00' });
    await finish(batch);
    expect(await believed(next)).toEqual(MOOSE);
    await test(batch, 3);
    expect((await believed(next))?.mean).toBeCloseTo(MOOSE.mean + ofSpecies * surprise, 12);
  });
});

describe('a fat test of a pool', () => {
  it('shares the surprise by variance × share, bought fat among it, and never widens a spread', async () => {
    const [elk, deer] = [await animal('elk'), await animal('mule-deer')];
    const lot = await shop.call('fat.buy', { source: 'pork-back-fat', typed: '40' });
    await tested(12, { [elk]: '30.00', [deer]: '14.00' }, { [lot.id]: '6.00' });
    const went = [
      { ...ELK, share: 0.6 },
      { ...DEER, share: 0.28 },
      { ...BACK_FAT, share: 0.12 },
    ];
    const foretold = went.reduce((sum, { share, mean }) => sum + share * mean, 0);
    const S = went.reduce((sum, { share, sd }) => sum + (share * sd) ** 2, TEST_SD ** 2);
    const plan = await shop.call('grinder.plan', {
      animals: [{ id: elk }, { id: deer }],
      fat: 'pork-back-fat',
      targetFat: null,
    });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    const found = [await believed(elk), await believed(deer)];
    const means = [found[0]?.mean, found[1]?.mean, plan.parts.find(({ kind }) => kind === 'fat')?.fat];
    went.forEach(({ share, mean, sd }, i) =>
      expect(means[i]).toBeCloseTo(mean + ((share * sd ** 2) / S) * (0.12 - foretold), 12),
    );
    expect(found[0]?.sd).toBeCloseTo(Math.sqrt(ELK.sd ** 2 - (0.6 * ELK.sd ** 2) ** 2 / S), 12);
    expect(found[0]?.sd).toBeLessThan(ELK.sd);
    expect(found[1]?.sd).toBeLessThan(DEER.sd);
  });

  it('plans with no fat at all where the arithmetic ends below none', async () => {
    const elk = await animal('elk');
    const lot = await shop.call('fat.buy', { source: 'pork-trim-72', typed: '60' });
    await tested(6, { [elk]: '20.00' }, { [lot.id]: '20.00' });
    const now = await believed(elk);
    expect(now?.mean).toBe(0);
    expect(now?.sd).toBeGreaterThan(0);
    expect(
      await shop.call('grinder.plan', { animals: [{ id: elk }], fat: 'pork-trim-72', targetFat: 0.1 }),
    ).toMatchObject({ kind: 'plan' });
  });
});
