import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBlend, type BlendPlan, type BlendRequest } from '../../../src/core/blend/blend.ts';
import { programText, solve } from '../../../src/core/blend/program.ts';
import { anyRequest, everyStep, frozen, gramsById, steppedRequest } from './requests.ts';
import { runs } from '../../runs.ts';

const LONG = 300_000;

async function plan(request: BlendRequest): Promise<BlendPlan> {
  const answer = await planBlend(frozen(request));
  if (answer.kind !== 'plan') throw new Error(`no plan: ${JSON.stringify(answer)}`);
  return answer;
}

/** Elk at 6 %: common practice, no source. Back fat 88.69 %: USDA NDB 10004. Prices are made up. */
const elk = { id: 'elk', fat: 0.06, availableGrams: 10_000, costPerKg: 0, useAll: true };
const backFat = { id: 'back fat', fat: 0.8869, availableGrams: 5000, costPerKg: 300 };
const ownFat = { id: 'own fat', fat: 0.7089, availableGrams: 500, costPerKg: 0 };

describe('planBlend', () => {
  it('adds exactly the fat that reaches the minimum', async () => {
    const found = await plan({ sources: [elk, backFat], fat: { min: 0.125, max: 0.13 } });
    expect(found.parts[1]?.grams).toBeCloseTo((10_000 * 0.065) / 0.7619, 6);
    expect(found.fat).toBeCloseTo(0.125, 10);
    expect(found.cost).toBeCloseTo((300 * 10 * 0.065) / 0.7619, 6);
  });

  it('adds no more than needed even where fat costs nothing', async () => {
    const free = { ...backFat, costPerKg: 0 };
    const found = await plan({ sources: [elk, free], fat: { min: 0.125, max: 0.3 } });
    expect(found.fat).toBeCloseTo(0.125, 8);
  });

  it('adds up to the limit where using fat saves money', async () => {
    const burden = { ...backFat, costPerKg: -50 };
    const found = await plan({ sources: [elk, burden], fat: { min: 0.125, max: 0.3 } });
    expect(found.fat).toBeCloseTo(0.3, 8);
  });

  it('uses own fat, which costs nothing, before bought fat', async () => {
    const found = await plan({ sources: [elk, backFat, ownFat], fat: { min: 0.125, max: 0.13 } });
    expect(found.parts[2]?.grams).toBe(500);
  });

  it('gives the range of the finished fat from independent spreads', async () => {
    const sources = [
      { id: 'a', fat: 0.1, fatSd: 0.03, availableGrams: 600, costPerKg: 1, useAll: true },
      { id: 'b', fat: 0.2, fatSd: 0.04, availableGrams: 400, costPerKg: 1, useAll: true },
    ];
    const found = await plan({ sources, fat: { min: 0, max: 1 } });
    const sd = Math.hypot(0.6 * 0.03, 0.4 * 0.04);
    expect(found.fat).toBeCloseTo(0.14, 12);
    // 1.6448536 is the 95th percentile of the standard normal (NIST/SEMATECH e-Handbook 1.3.6.7.1 gives 1.645)
    expect(found.fatRange.high).toBeCloseTo(0.14 + 1.6448536 * sd, 7);
    expect(found.fatRange.low).toBeCloseTo(0.14 - 1.6448536 * sd, 7);
  });

  it(
    'keeps every rule, whatever the order and whatever the scale, and never gets dearer with more on hand',
    async () => {
      let plans = 0;
      const keepsTheRules = async (request: BlendRequest): Promise<void> => {
        const answer = await planBlend(request);
        const turned = await planBlend({ ...request, sources: request.sources.toReversed() });
        expect(turned.kind).toBe(answer.kind);
        if (answer.kind !== 'plan' || turned.kind !== 'plan') return;
        plans++;
        const total = answer.parts.reduce((sum, { grams }) => sum + grams, 0);
        const fat = answer.parts.reduce(
          (sum, p, i) => sum + p.grams * (request.sources[i]?.fat as number),
          0,
        );
        expect(Math.abs(total - answer.batchGrams)).toBeLessThanOrEqual(1e-9 * total);
        expect(Math.abs(fat / total - answer.fat)).toBeLessThanOrEqual(1e-9);
        expect(answer.fat).toBeGreaterThanOrEqual(request.fat.min - 1e-9);
        expect(answer.fat).toBeLessThanOrEqual(request.fat.max + 1e-9);
        if (request.batchGrams !== undefined)
          expect(Math.abs(total - request.batchGrams)).toBeLessThanOrEqual(1e-9 * total);
        answer.parts.forEach((part, i) => {
          const source = request.sources[i];
          expect(part.grams).toBeGreaterThanOrEqual(source?.useAll ? source.availableGrams : 0);
          expect(part.grams).toBeLessThanOrEqual(source?.availableGrams as number);
          expect(part.share).toBeLessThanOrEqual((source?.maxShare ?? 1) + 1e-9);
        });

        expect(gramsById(turned.parts)).toEqual(gramsById(answer.parts));
        expect(turned.cost).toBe(answer.cost);

        const larger = await plan(scaled(request, 2.5));
        expect(larger.cost).toBeCloseTo(2.5 * answer.cost, 2);

        const more = await plan(withMore(request));
        expect(more.cost).toBeLessThanOrEqual(answer.cost * (1 + 1e-6) + 1e-6);
      };
      await fc.assert(fc.asyncProperty(anyRequest, keepsTheRules), { numRuns: runs(1000) });
      expect(plans).toBeGreaterThan(runs(200));
    },
    LONG,
  );

  it(
    'finds the cheapest of all combinations of whole steps',
    async () => {
      let plans = 0;
      const cheapestOfAll = async (request: BlendRequest): Promise<void> => {
        const answer = await planBlend(request);
        const best = everyStep(request);
        expect(answer.kind).toBe(best === null ? 'impossible' : 'plan');
        if (answer.kind !== 'plan' || best === null) return;
        plans++;
        expect(answer.cost).toBeGreaterThanOrEqual(best - 1e-9);
        expect(answer.cost).toBeLessThanOrEqual(best * (1 + 1e-5) + 1e-6);
        answer.parts.forEach(({ grams }, i) => {
          if (!request.sources[i]?.useAll) expect(grams % 100).toBe(0);
        });
      };
      await fc.assert(fc.asyncProperty(steppedRequest, cheapestOfAll), { numRuns: runs(1000) });
      expect(plans).toBeGreaterThan(runs(200));
    },
    LONG,
  );

  it('approximates a fixed size as closely as the steps of the scale allow', async () => {
    const step = 9.0718474; // 0.02 lb
    const sources = [
      { ...elk, useAll: false, stepGrams: step },
      { ...backFat, stepGrams: step },
    ];
    const found = await plan({ sources, batchGrams: 5000, fat: { min: 0.12, max: 0.13 } });
    expect(Math.abs(found.batchGrams - 5000)).toBeLessThanOrEqual(step / 2);
    expect(found.batchGrams / step).toBeCloseTo(Math.round(5000 / step), 9);
  });

  it('treats a scale step that is too coarse for the batch as impossible', async () => {
    const sources = [{ ...backFat, stepGrams: 4000 }];
    const answer = await planBlend({ sources, batchGrams: 1000, fat: { min: 0, max: 1 } });
    expect(answer).toMatchObject({ kind: 'impossible', why: { code: 'steps' } });
  });
});

describe('the probability of staying below a fat content', () => {
  const sources = [
    { ...elk, useAll: false, fatSd: 0.02 },
    { ...backFat, fatSd: 0.03 },
    { ...ownFat, fatSd: 0.08 },
    { id: 'lean beef', fat: 0.05, fatSd: 0.01, availableGrams: 9000, costPerKg: 500 },
  ];
  const request = {
    sources,
    batchGrams: 8000,
    fat: { min: 0.13, max: 0.15 },
    sureBelow: { fat: 0.15, probability: 0.95 },
  };

  it('is met, and costs something', async () => {
    const found = await plan(request);
    expect(found.probabilityBelow).toBeGreaterThanOrEqual(0.95);
    expect(found.probabilityBelow).toBeLessThan(0.951);
    const without = await plan({ ...request, sureBelow: undefined });
    expect(found.cost).toBeGreaterThan(without.cost);
  });

  it('is met at the least cost found by a fine grid of feasible batches', async () => {
    const found = await plan(request);
    let best = Infinity;
    for (let fat = 0; fat <= 900; fat += 5)
      for (let own = 0; own <= 500; own += 5)
        for (let beef = 0; beef <= 8000 - fat - own; beef += 20) {
          const grams = [8000 - fat - own - beef, fat, own, beef];
          if (safe(grams)) best = Math.min(best, (fat * 300 + beef * 500) / 1000);
        }
    expect(found.cost).toBeLessThanOrEqual(best);
    expect(best - found.cost).toBeLessThan(25);
  });

  function safe(grams: readonly number[]): boolean {
    const fat = sources.reduce((sum, s, i) => sum + s.fat * (grams[i] as number), 0) / 8000;
    const sd = Math.hypot(...sources.map((s, i) => s.fatSd * (grams[i] as number))) / 8000;
    return fat >= 0.13 && fat + 1.6448536269514722 * sd <= 0.15;
  }

  it("is the reported reason when it alone is infeasible, with the nearest batch's probability", async () => {
    const answer = await planBlend({ ...request, sureBelow: { fat: 0.135, probability: 0.99 } });
    expect(answer).toMatchObject({ kind: 'impossible', why: { code: 'not-sure' } });
    if (answer.kind !== 'impossible') return;
    expect(answer.nearest?.fatOff).toBeLessThan(1e-9);
    expect(answer.nearest?.probabilityBelow).toBeGreaterThan(0.5);
    expect(answer.nearest?.probabilityBelow).toBeLessThan(0.99);
  });
});

describe('the solver', () => {
  it('writes no product names into its text', () => {
    const text = programText({
      columns: [{ lower: 0, upper: Infinity, cost: -1, whole: true }],
      rows: [{ terms: [[0, 0.5]], lower: -Infinity, upper: 2 }],
    });
    expect(text.split('\n').map((line) => line.trim())).toEqual(
      ['Minimize', 'cost:', '- 1 x0', 'Subject To', 'r0b:', '+ 0.5 x0', '<= 2', 'Bounds', 'x0 >= 0', 'General', 'x0', 'End', ''],
    ); // prettier-ignore
  });

  it('accepts only a proven optimum', async () => {
    const unbounded = { columns: [{ lower: 0, upper: Infinity, cost: -1 }], rows: [] };
    await expect(solve(unbounded)).rejects.toMatchObject({ code: 'blend.solver' });
    const unreadable = { columns: [{ lower: 0, upper: NaN, cost: NaN }], rows: [] };
    await expect(solve(unreadable)).rejects.toMatchObject({ code: 'blend.solver' });
    const fits = { columns: [{ lower: 1, upper: 2, cost: 1 }], rows: [] };
    expect((await solve(fits))?.values).toEqual([1]);
  });

  it(
    'answers for ten thousand sources',
    async () => {
      const sources = Array.from({ length: 10_000 }, (_, i) => ({
        id: `tub ${i}`,
        fat: ((i * 7919) % 600) / 1000,
        availableGrams: (i * 104_729) % 2000,
        costPerKg: 100 + ((i * 31_337) % 900),
      }));
      const found = await plan({ sources, batchGrams: 3e6, fat: { min: 0.19, max: 0.21 } });
      expect(found.batchGrams).toBeCloseTo(3e6, 2);
    },
    LONG,
  );
});

function scaled(request: BlendRequest, by: number): BlendRequest {
  const sources = request.sources.map((s) => ({ ...s, availableGrams: s.availableGrams * by }));
  return { ...request, sources, batchGrams: request.batchGrams && request.batchGrams * by };
}

/** The same with a kilogram more of everything that need not all go in. */
function withMore(request: BlendRequest): BlendRequest {
  const sources = request.sources.map((s) =>
    s.useAll ? s : { ...s, availableGrams: s.availableGrams + 1000 },
  );
  return { ...request, sources };
}
