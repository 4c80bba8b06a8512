/** What fat tests teach, followed by hand from the scale to the next plan. Spreads: `resources/species.json`, `fats.json`. */
import { beforeEach, describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LB = 453.59237;
/** USDA NDB 17172 (moose), 17338 (elk, ground), 17343 (deer, ground), 10004 (pork back fat); each ± the profile's spread. */
const MOOSE = { mean: 0.0074, sd: 0.02 };
const ELK = { mean: 0.0882, sd: 0.035 };
const DEER = { mean: 0.0713, sd: 0.03 };
const BACK_FAT = { mean: 0.8869, sd: 0.03 };
/** A quick fat test's own spread. */
const TEST_SD = 0.01;
/** Of a species' variance, what is doubt about its mean; the rest is its animals' own. */
const MEAN_SHARE = 0.75;
/** Of the doubt about a species' mean, what all species of the shop share. */
const SHOP_SHARE = 0.5;
/** Spread of the natural logarithm of the animal-to-animal SD about the typical one. */
const LOG_SD = 0.35;
const T2 = TEST_SD ** 2;
const doubtOf = ({ sd }: { sd: number }): number => MEAN_SHARE * sd ** 2;
const typicalOwn = ({ sd }: { sd: number }): number => (1 - MEAN_SHARE) * sd ** 2;

/**
 * The mean ratio of animal-to-animal variance to the typical one by plain integration over the log-normal prior, given
 * innovations with variance rest + own × ratio each. Without any it is exp(2 × LOG_SD²).
 */
function ratioAfter(...tests: { innovation: number; rest: number; own: number }[]): number {
  let [sum, weights] = [0, 0];
  for (let z = -8; z <= 8; z += 0.001) {
    const ratio = Math.exp(2 * LOG_SD * z);
    const logs = tests.map(({ innovation, rest, own }) => {
      const variance = rest + own * ratio;
      return Math.log(variance) + innovation ** 2 / variance;
    });
    const weight = Math.exp(-0.5 * (z * z + logs.reduce((total, log) => total + log, 0)));
    sum += weight * ratio;
    weights += weight;
  }
  return sum / weights;
}
const FRESH = Math.exp(2 * LOG_SD ** 2);
/** One more animal of a species that was never tested. */
const untested = (species: { mean: number; sd: number }) => ({
  mean: expect.closeTo(species.mean, 12) as number,
  sd: expect.closeTo(Math.sqrt(doubtOf(species) + typicalOwn(species) * FRESH), 9) as number,
});

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
  return (await shop.call('grinder.get', {})).waiting.find((row) => row.id === id)?.trimFat;
}

const fatNow = async (batchId: number) => (await shop.call('grinder.getBatch', { id: batchId })).fat;

describe('a fat test of one animal', () => {
  // The test lies 0.03 − 0.0074 = 0.0226 above what was believed: 1.02 SD, so that the ratio hardly moves from 1.28.
  const surprise = 0.03 - MOOSE.mean;
  const ratio = ratioAfter({ innovation: surprise, rest: doubtOf(MOOSE) + T2, own: typicalOwn(MOOSE) });
  const own = typicalOwn(MOOSE) * ratio;
  const S = doubtOf(MOOSE) + own + T2;
  const ofAnimal = (doubtOf(MOOSE) + own) / S;
  const ofSpecies = doubtOf(MOOSE) / S;
  const nextSd = Math.sqrt(doubtOf(MOOSE) * (1 - ofSpecies) + own);

  it('predicts an untested animal by its species, a little wider for the unknown spread between animals', async () => {
    expect(await believed(await animal('moose'))).toEqual(untested(MOOSE));
  });

  it('moves the rest of its trim, less the next animal of its species, and least another species', async () => {
    const [first, next, elk] = [await animal('moose'), await animal('moose'), await animal('elk')];
    await tested(3, { [first]: '20.00' });
    const itself = await believed(first);
    expect(itself?.mean).toBeCloseTo(MOOSE.mean + ofAnimal * surprise, 9);
    expect(itself?.mean).toBeCloseTo(0.0257, 4);
    expect(itself?.sd).toBeCloseTo(Math.sqrt((doubtOf(MOOSE) + own) * (1 - ofAnimal)), 9);
    const other = await believed(next);
    expect(other?.mean).toBeCloseTo(MOOSE.mean + ofSpecies * surprise, 9);
    expect(other?.mean).toBeCloseTo(0.0203, 4);
    expect(other?.sd).toBeCloseTo(nextSd, 9);
    const shared = SHOP_SHARE * Math.sqrt(doubtOf(MOOSE) * doubtOf(ELK));
    const stranger = await believed(elk);
    expect(stranger?.mean).toBeCloseTo(ELK.mean + (shared / S) * surprise, 9);
    expect(stranger?.sd).toBeCloseTo(Math.sqrt(doubtOf(ELK) - shared ** 2 / S + typicalOwn(ELK) * FRESH), 9);
  });

  it("moves the next moose's plan and its weighed-in fat", async () => {
    const [first, next] = [await animal('moose'), await animal('moose', '100.00')];
    await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' });
    await tested(3, { [first]: '40.00' });
    const lean = MOOSE.mean + ofSpecies * surprise;
    const plan = await shop.call('grinder.plan', {
      animals: [{ id: next }],
      fat: 'pork-back-fat',
      targetFat: 0.125,
    });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    // Pearson square: 100 × (12.5 − 2.027) / (88.69 − 12.5) = 13.745 lb, 13.75 on the scale; untaught it was 15.45.
    expect((100 * (0.125 - lean)) / (BACK_FAT.mean - 0.125)).toBeCloseTo(13.745, 3);
    const [trim, fat] = [plan.parts[0], plan.parts[1]];
    expect(fat?.grams).toBeCloseTo(13.75 * LB, 6);
    expect(trim?.fat).toBeCloseTo(lean, 9);
    expect(plan.fat).toBeCloseTo((100 * lean + 13.75 * BACK_FAT.mean) / 113.75, 9);
    const page = await shop.call('grinder.getBatch', { id: await begin({ [next]: '50.00' }) });
    expect(page.fat).toBeCloseTo(lean, 9);
    expect(page.weighedIn[0]?.fat).toBeCloseTo(lean, 9);
    // 0.95-quantile of the normal distribution
    expect(page.fatRange?.high).toBeCloseTo(lean + 1.6448536269514722 * nextSd, 9);
  });

  it('moves the fat to buy of the next quote', async () => {
    const ask = async () =>
      shop.call('quotes.calculate', {
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
    const innovation = 0.04 - MOOSE.mean;
    const taught = ratioAfter({ innovation, rest: doubtOf(MOOSE) + T2, own: typicalOwn(MOOSE) });
    const mean =
      MOOSE.mean + (doubtOf(MOOSE) / (doubtOf(MOOSE) + typicalOwn(MOOSE) * taught + T2)) * innovation;
    const perTrim = (fat: number): number => (0.125 - fat) / (BACK_FAT.mean - 0.125);
    const trim = (quote: typeof before): number =>
      quote.parts.find(({ part }) => part === 'trim')?.grams.mean ?? 0;
    const after = await ask();
    expect(before.fatToBuyGrams.mean / trim(before)).toBeCloseTo(perTrim(MOOSE.mean), 9);
    expect(after.fatToBuyGrams.mean / trim(after)).toBeCloseTo(perTrim(mean), 9);
  });

  it('changes neither its own batch nor an earlier one, and the season shows both', async () => {
    const [first, next, last] = [await animal('moose'), await animal('moose'), await animal('moose')];
    const earlier = await begin({ [last]: '40.00' });
    const batch = await begin({ [first]: '40.00' });
    const later = await begin({ [next]: '40.00' });
    const before = await shop.call('grinder.getBatch', { id: batch });
    await test(batch, 3);
    await finish(batch);
    const after = await shop.call('grinder.getBatch', { id: batch });
    expect(after.fat).toBeCloseTo(MOOSE.mean, 12);
    expect(after.fat).toBe(before.fat);
    expect(after.fatRange).toEqual(before.fatRange);
    const lean = MOOSE.mean + ofSpecies * surprise;
    expect(await fatNow(earlier)).toBeCloseTo(MOOSE.mean, 12);
    expect(await fatNow(later)).toBeCloseTo(lean, 9);
    const { batches } = await shop.call('season.fat', {});
    expect(batches.map(({ id, weighedIn, tested: shown }) => [id, weighedIn, shown])).toEqual([
      [earlier, expect.closeTo(MOOSE.mean, 12), null],
      [batch, expect.closeTo(MOOSE.mean, 12), 0.03],
      [later, expect.closeTo(lean, 9), null],
    ]);
  });

  it('stays in effect when the animal is released, and combines with the next test', async () => {
    const [first, second, third] = [await animal('moose'), await animal('moose'), await animal('moose')];
    await tested(3, { [first]: '40.00' });
    await shop.call('animals.setStage', {
      id: first,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('pickup.release', { id: first, to: 'Dana Whitlock' });
    const taught = await believed(third);
    expect(taught?.mean).toBeCloseTo(MOOSE.mean + ofSpecies * surprise, 9);
    await tested(3, { [second]: '40.00' });
    // Both tests lie 0.0226 above the published mean, each about the species' mean with the animal's and its own error.
    const first2 = { innovation: surprise, rest: doubtOf(MOOSE) + T2, own: typicalOwn(MOOSE) };
    const left = surprise * (1 - ofSpecies);
    const second2 = { innovation: left, rest: doubtOf(MOOSE) * (1 - ofSpecies) + T2, own: typicalOwn(MOOSE) };
    const precision = 1 / (own + T2) + 1 / (typicalOwn(MOOSE) * ratioAfter(first2, second2) + T2);
    const now = await believed(third);
    expect(now?.mean).toBeCloseTo(MOOSE.mean + surprise / (1 + 1 / (doubtOf(MOOSE) * precision)), 9);
    expect(now?.sd).toBeLessThan(taught?.sd ?? 0);
  });

  it('is removed when its weights are voided, and follows a correction', async () => {
    const [first, next] = [await animal('moose'), await animal('moose')];
    const [lot] = [await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' })];
    const batch = await tested(10, { [first]: '20.00' }, { [lot.id]: '1.00' });
    const wrong = await believed(next);
    expect(wrong?.mean).toBeGreaterThan(MOOSE.mean);
    const page = await shop.call('grinder.getBatch', { id: batch });
    const weighings = (part: string) => page.weighedIn.find((row) => row.part === part)?.id ?? 0;
    shop.wait(3600);
    await shop.call('grinder.reopen', { batchId: batch, reason: 'the fat was misread' });
    await shop.call('table.correct', { weighingId: weighings('fat added'), typed: '2.30' });
    await shop.call('grinder.finish', { batchId: batch });
    // 20 lb of moose and 2.3 lb of back fat were foretold at 9.81 %, so that 10 % is hardly a surprise.
    const shares = [20 / 22.3, 2.3 / 22.3] as const;
    const foretold = shares[0] * MOOSE.mean + shares[1] * BACK_FAT.mean;
    const rest = shares[0] ** 2 * doubtOf(MOOSE) + (shares[1] * BACK_FAT.sd) ** 2 + T2;
    const ownOfOne = shares[0] ** 2 * typicalOwn(MOOSE);
    const spread = rest + ownOfOne * ratioAfter({ innovation: 0.1 - foretold, rest, own: ownOfOne });
    const moved = (shares[0] * doubtOf(MOOSE)) / spread;
    expect((await believed(next))?.mean).toBeCloseTo(MOOSE.mean + moved * (0.1 - foretold), 9);
    await shop.call('grinder.reopen', { batchId: batch, reason: 'the wrong batch' });
    for (const row of (await shop.call('grinder.getBatch', { id: batch })).weighedIn)
      if (!row.voided) await shop.call('table.void', { weighingId: row.id, reason: 'wrong batch' });
    expect(await believed(next)).toEqual(untested(MOOSE));
  });

  it('is used only for a finished grind: not while open, and not when more was added after it', async () => {
    const [first, next] = [await animal('moose'), await animal('moose')];
    const batch = await begin({ [first]: '20.00' });
    await test(batch, 3);
    expect(await believed(next)).toEqual(untested(MOOSE));
    shop.wait(60);
    await shop.call('grinder.weighIn', { batchId: batch, animalId: first, part: 'trim', typed: '10.00' });
    await finish(batch);
    expect(await believed(next)).toEqual(untested(MOOSE));
    await test(batch, 3);
    expect((await believed(next))?.mean).toBeCloseTo(MOOSE.mean + ofSpecies * surprise, 9);
  });
});

describe('a fat test of a pool', () => {
  it("divides the innovation by each source's share of the variance, bought fat included", async () => {
    const [elk, deer] = [await animal('elk'), await animal('mule-deer')];
    const lot = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '40' });
    await tested(12, { [elk]: '30.00', [deer]: '14.00' }, { [lot.id]: '6.00' });
    const shares = [0.6, 0.28, 0.12];
    const went = [ELK, DEER, BACK_FAT];
    const innovation = 0.12 - went.reduce((sum, { mean }, i) => sum + (shares[i] ?? 0) * mean, 0);
    const between = SHOP_SHARE * Math.sqrt(doubtOf(ELK) * doubtOf(DEER));
    const covariance = (ofElk: number, ofDeer: number) => [
      [doubtOf(ELK) + typicalOwn(ELK) * ofElk, between, 0],
      [between, doubtOf(DEER) + typicalOwn(DEER) * ofDeer, 0],
      [0, 0, BACK_FAT.sd ** 2],
    ];
    const total = (matrix: number[][]) =>
      matrix.flatMap((row, i) => row.map((one, j) => one * (shares[i] ?? 0) * (shares[j] ?? 0))).reduce((a, b) => a + b, T2); // prettier-ignore
    // Each species' ratio is learned with the other's at its mean.
    const ratios = [ELK, DEER].map((species, i) => {
      const own = (shares[i] ?? 0) ** 2 * typicalOwn(species);
      return ratioAfter({ innovation, rest: total(covariance(FRESH, FRESH)) - own * FRESH, own });
    });
    const matrix = covariance(ratios[0] ?? 0, ratios[1] ?? 0);
    const tied = matrix.map((row) => row.reduce((sum, one, j) => sum + one * (shares[j] ?? 0), 0));
    const S = total(matrix);
    const plan = await shop.call('grinder.plan', {
      animals: [{ id: elk }, { id: deer }],
      fat: 'pork-back-fat',
      targetFat: null,
    });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    const found = [await believed(elk), await believed(deer)];
    const means = [found[0]?.mean, found[1]?.mean, plan.parts.find(({ kind }) => kind === 'fat')?.fat];
    went.forEach(({ mean }, i) => expect(means[i]).toBeCloseTo(mean + ((tied[i] ?? 0) / S) * innovation, 9));
    expect(found[0]?.sd).toBeCloseTo(Math.sqrt((matrix[0]?.[0] ?? 0) - (tied[0] ?? 0) ** 2 / S), 9);
    expect(found[0]?.sd).toBeLessThan(ELK.sd);
    expect(found[1]?.sd).toBeLessThan(DEER.sd);
  });

  it('plans without fat where the estimate is below zero', async () => {
    const moose = await animal('moose');
    const lot = await shop.call('fat.receive', { source: 'pork-trim-72', typed: '100' });
    await tested(6, { [moose]: '20.00' }, { [lot.id]: '20.00' });
    const now = await believed(moose);
    expect(now?.mean).toBe(0);
    expect(now?.sd).toBeGreaterThan(0);
    expect(
      await shop.call('grinder.plan', { animals: [{ id: moose }], fat: 'pork-trim-72', targetFat: 0.1 }),
    ).toMatchObject({ kind: 'plan' });
  });
});

/** The range of a batch fresh from the published figures, against its closed form. */
describe('the 9 in 10 range of a batch', () => {
  const Z = 1.6448536269514722; // 0.95-quantile of the normal distribution
  const closed = (shares: number[]): number =>
    Math.sqrt(
      shares.reduce((sum, share) => sum + share, 0) ** 2 * doubtOf(DEER) +
        shares.reduce((sum, share) => sum + share ** 2, 0) * typicalOwn(DEER) * FRESH,
    );

  it.each([1, 2, 4, 6, 10])('of %i deer keeps the doubt about the mean that they share', async (n) => {
    const trim: Weights = {};
    for (let i = 0; i < n; i++) trim[await animal('mule-deer', '20.00')] = '20.00';
    const animals = Object.keys(trim).map((id) => ({ id: Number(id) }));
    const lot = await shop.call('fat.receive', { source: 'pork-back-fat', typed: '100' });
    const plan = await shop.call('grinder.plan', { animals, fat: 'pork-back-fat', targetFat: 0.2 });
    if (plan.kind !== 'plan') throw new Error(plan.kind);
    const fatShare = plan.fatToAddGrams / plan.batchGrams;
    const shares = animals.map(() => (1 - fatShare) / n);
    const sd = Math.hypot(closed(shares), fatShare * BACK_FAT.sd);
    expect(plan.fatRange.low).toBeCloseTo(plan.fat - Z * sd, 9);
    expect(plan.fatRange.high).toBeCloseTo(plan.fat + Z * sd, 9);
    const { id: batchId } = await shop.call('grinder.start', { animals, fat: 'pork-back-fat', targetFat: 0.2, product: 'Ground' }); // prettier-ignore
    for (const [id, typed] of Object.entries(trim))
      await shop.call('grinder.weighIn', { batchId, animalId: Number(id), part: 'trim', typed });
    await shop.call('grinder.weighIn', { batchId, fatLotId: lot.id, part: 'fat added', typed: `${(plan.fatToAddGrams / LB).toFixed(2)}` }); // prettier-ignore
    const page = await shop.call('grinder.getBatch', { id: batchId });
    expect(page.fatRange?.low).toBeCloseTo(plan.fatRange.low, 9);
    expect(page.fatRange?.high).toBeCloseTo(plan.fatRange.high, 9);
  });

  it('of two species is narrower than of one, but not as if a shop trimmed each independently', async () => {
    const [elk, deer] = [await animal('elk'), await animal('mule-deer')];
    const page = await shop.call('grinder.getBatch', {
      id: await begin({ [elk]: '20.00', [deer]: '20.00' }),
    });
    const doubt =
      (doubtOf(ELK) + doubtOf(DEER) + 2 * SHOP_SHARE * Math.sqrt(doubtOf(ELK) * doubtOf(DEER))) / 4;
    const sd = Math.sqrt(doubt + ((typicalOwn(ELK) + typicalOwn(DEER)) * FRESH) / 4);
    expect(page.fatRange?.high).toBeCloseTo((ELK.mean + DEER.mean) / 2 + Z * sd, 9);
  });
});
