import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priorOf } from '../../../src/core/loss/kind.ts';
import { LEARNED_BATCHES, learnLoss, type LossBatch } from '../../../src/core/loss/loss.ts';
import { mixtureCdf, mixtureQuantile, nextBatch } from '../../../src/core/loss/product-posterior.ts';
import { normalCdf } from '../../../src/core/stats/distributions.ts';
import { logit } from '../../../src/core/yield/tree.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { KINDS, LOSS_WORLDS, openLossShop } from '../../calibrate/loss-world.ts';
import { lossCoverage } from '../../calibrate/loss.ts';

const sticks = (outGrams: number, product = 'sticks'): LossBatch => ({ product, kind: 'sticks', inGrams: 1000, outGrams }); // prettier-ignore
const range = (batches: readonly LossBatch[], product = 'sticks', kind = 'sticks') =>
  learnLoss(batches, KINDS).forecast(product, kind);
const throwing = (code: string) => expect.objectContaining({ name: 'ValidationError', code });

describe('the yield of the next batch', () => {
  it('before the first batch is what is assumed of its kind, and wider', () => {
    const { low, middle, high, batches, assumed } = range([]);
    expect(batches).toBe(0);
    expect(assumed).toMatchObject({ code: 'sticks', low: 0.55, high: 0.8, grade: 'assumption' });
    expect(assumed?.source).toMatch(/^common practice, no source/);
    // The middle of 55 and 80 % on the logit scale: (0.2007 + 1.3863) / 2.
    expect(middle).toBeCloseTo(1 / (1 + Math.exp(-0.7935)), 3);
    expect(low).toBeLessThan(0.55);
    expect(high).toBeGreaterThan(0.8);
  });

  it('is drawn from the distribution of its range: 8 in 10 draws lie within it, half below its middle', () => {
    for (const outs of [[], [620, 640, 610, 630, 625, 618]]) {
      const model = learnLoss(
        outs.map((out) => sticks(out)),
        KINDS,
      );
      const { low, middle, high } = model.forecast('sticks', 'sticks');
      const draws = model.draws('sticks', 'sticks', 400, seededRandom(3));
      const share = (within: (one: number) => boolean): number => draws.filter(within).length / draws.length;
      // Of 400 independent draws, one standard error is 2 points.
      expect(Math.abs(share((one) => one >= low && one <= high) - 0.8)).toBeLessThan(0.008);
      expect(Math.abs(share((one) => one < middle) - 0.5)).toBeLessThan(0.008);
      // In random order: neighbors tell nothing of each other.
      const pairs = draws.slice(1).filter((one, i) => one < middle === draws[i]! < middle).length;
      expect(Math.abs(pairs / 399 - 0.5)).toBeLessThan(0.08);
    }
  });

  it('says what it assumes until the fifth batch, and narrows', () => {
    const outs = [620, 640, 610, 630, 625, 618];
    const found = outs.map((_, n) => range(outs.slice(0, n).map((out) => sticks(out))));
    expect(found.map(({ assumed }) => assumed !== null)).toEqual([true, true, true, true, true, false]);
    expect(LEARNED_BATCHES).toBe(5);
    const last = found.at(-1)!;
    expect(last.middle).toBeCloseTo(0.625, 2);
    expect(last.high - last.low).toBeLessThan((found[0]!.high - found[0]!.low) / 5);
  });

  it('is that of a slow integral over mean and spread', () => {
    const ys = [0.62, 0.66, 0.6, 0.65].map(logit);
    const { location, scale, batchSd } = priorOf(KINDS.find(({ code }) => code === 'sticks')!);
    const next = nextBatch(ys, { at: location, variance: scale ** 2 }, { batchSd, logSd: 1.4 });
    // Weights over 400 means and 400 spreads, prior times likelihood.
    const cells: { weight: number; mean: number; sd: number }[] = [];
    for (let i = 0; i < 400; i++)
      for (let j = 0; j < 400; j++) {
        const mean = location + scale * (i / 50 - 4);
        const log = 1.4 * (j / 80 - 2.5);
        const sd = batchSd * Math.exp(log);
        const prior = -0.5 * ((mean - location) / scale) ** 2 - 0.5 * (log / 1.4) ** 2;
        const fit = ys.reduce((sum, y) => sum - Math.log(sd) - 0.5 * ((y - mean) / sd) ** 2, 0);
        cells.push({ weight: Math.exp(prior + fit), mean, sd });
      }
    const total = cells.reduce((sum, { weight }) => sum + weight, 0);
    for (const y of [0.2, 0.4, 0.55, 0.7, 0.9]) {
      const below = cells.reduce((sum, { weight, mean, sd }) => sum + (weight > 1e-12 * total ? weight * normalCdf((y - mean) / sd) : 0), 0) / total; // prettier-ignore
      expect(mixtureCdf(next, y)).toBeCloseTo(below, 2);
    }
  });

  it('leans to where the shop’s other products lie until it has batches of its own', () => {
    const dry = Array.from({ length: 8 }, () => ({ ...sticks(560, 'other'), product: 'other' }));
    expect(range(dry, 'new').middle).toBeLessThan(range([], 'new').middle - 0.01);
    const own = Array.from({ length: 8 }, (_, i) => sticks(700 + i, 'new'));
    expect(range([...dry, ...own], 'new').middle).toBeCloseTo(0.703, 2);
  });

  it('is a probability with quantiles that go back to it', () => {
    const y = fc.double({ min: -2, max: 2, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(y, { maxLength: 12 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (ys, p) => {
          const next = nextBatch(ys, { at: 0.5, variance: 0.4 }, { batchSd: 0.16, logSd: 1.4 });
          expect(next.weights.reduce((sum, weight) => sum + weight, 0)).toBeCloseTo(1, 9);
          expect(mixtureCdf(next, mixtureQuantile(next, p))).toBeCloseTo(p, 5);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('does not depend on the order of the batches, and stays between none and all', () => {
    const batch = fc.record({ product: fc.constantFrom('sticks', 'b'), kind: fc.constant('sticks'), inGrams: fc.integer({ min: 100, max: 1e5 }), share: fc.double({ min: 0.001, max: 1, noNaN: true }) }); // prettier-ignore
    fc.assert(
      fc.property(fc.array(batch, { maxLength: 20 }), (drawn) => {
        const batches = drawn.map(({ share, ...rest }) => ({ ...rest, outGrams: rest.inGrams * share }));
        const { low, middle, high } = range(batches);
        expect(range(batches.toReversed()).middle).toBeCloseTo(middle, 6);
        expect(0 < low && low <= middle && middle <= high && high <= 1).toBe(true);
      }),
      { numRuns: 100 },
    );
  });

  it('tells how unusual a batch is for its product, itself left out', () => {
    const batches = [620, 640, 610, 630, 625, 618, 450].map((out) => sticks(out));
    const model = learnLoss(batches, KINDS);
    expect(model.tailOf(sticks(450), 6)).toBeLessThan(0.01);
    expect(learnLoss(batches.slice(0, 6), KINDS).tailOf(sticks(622))).toBeGreaterThan(0.3);
    expect(learnLoss(batches.slice(0, 4), KINDS).tailOf(sticks(450))).toBeNull();
  });

  it('refuses what is no batch', () => {
    expect(() => range([sticks(1001)])).toThrow(throwing('loss.gain'));
    expect(() => range([sticks(0)])).toThrow(throwing('grams.not-positive'));
    expect(() => range([sticks(NaN)])).toThrow(throwing('number.not-finite'));
    expect(() => range([], 'a', 'cheese')).toThrow(throwing('loss.kind-unknown'));
    expect(() => learnLoss([], KINDS).forecast('a', 'sticks', 1)).toThrow(
      throwing('probability.out-of-range'),
    );
    expect(() => priorOf({ ...KINDS[0]!, low: 0.9, high: 0.8 })).toThrow(throwing('loss.assumption'));
  });
});

describe('in made-up shops, from the fifth batch', () => {
  it.each(LOSS_WORLDS)(
    '80 % ranges hold 76 to 84 %: $name',
    (world) => {
      for (const [seed, weighed] of [4, 8].entries()) {
        const { inside, shops } = lossCoverage(world, weighed, weighed === 4 ? 1200 : 800, 31 + seed);
        expect(inside / shops, `${weighed} weighed`).toBeGreaterThanOrEqual(0.76);
        expect(inside / shops, `${weighed} weighed`).toBeLessThanOrEqual(0.84);
      }
    },
    120_000,
  );

  // With a spread between products that was assumed twice as uncertain, 89 and 85 % held before the first and the second batch.
  it.each([
    { weighed: 0, widest: 0.285 },
    { weighed: 1, widest: 0.155 },
    { weighed: 2, widest: 0.135 },
  ])(
    'they hold it before that too, and are no wider than need be: $weighed weighed',
    ({ weighed, widest }) => {
      const { inside, shops, width } = lossCoverage(LOSS_WORLDS[0]!, weighed, 2000, 61 + weighed);
      expect(inside / shops).toBeGreaterThanOrEqual(0.76);
      expect(inside / shops).toBeLessThanOrEqual(0.84);
      expect(width / shops).toBeLessThan(widest);
    },
  );

  it('would show a range that is too narrow', () => {
    let inside = 0;
    for (let shop = 0; shop < 1000; shop++) {
      const next = openLossShop(LOSS_WORLDS[0]!, seededRandom(shop));
      const seen = Array.from({ length: 4 }, () => next(0));
      const { low, high } = learnLoss(seen, KINDS).forecast('sticks', 'sticks', 0.6);
      const { inGrams, outGrams } = next(0);
      if (outGrams / inGrams >= low && outGrams / inGrams <= high) inside++;
    }
    expect(inside / 1000).toBeLessThan(0.7);
  });
});
