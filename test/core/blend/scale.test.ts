import fc from 'fast-check';
import solver from 'javascript-lp-solver';
import { describe, expect, it } from 'vitest';
import { planBlend, type BlendPlan, type BlendRequest } from '../../../src/core/blend/blend.ts';
import { frozen } from './requests.ts';
import {
  canBeMade,
  cheapestInSteps,
  lotsInLine,
  offTheStep,
  oldestFirst,
  type Feasible,
  type Queue,
} from './scale-requests.ts';
import { runs } from '../../runs.ts';

const LONG = 300_000;
const POUND = 453.59237;

async function plan(request: BlendRequest): Promise<BlendPlan> {
  const answer = await planBlend(frozen(request));
  if (answer.kind !== 'plan') throw new Error(`no plan: ${JSON.stringify(answer)}`);
  return answer;
}

/** With steps the cost is the least to one part in 10⁵. */
function expectCheapest(cost: number, least: number): void {
  expect(cost).toBeLessThanOrEqual(least + Math.abs(least) * 1e-5 + 1e-6);
}

describe('a fixed size that falls between the steps of the scale', () => {
  const tub = (id: number, fat: number, availableGrams: number, costPerKg: number, stepGrams: number) => ({
    id: `tub ${id}`,
    fat,
    availableGrams,
    costPerKg,
    stepGrams,
  });

  // The least cost in each name was found by trying every combination of steps.
  it.each<[string, number, BlendRequest]>([
    ['16,400.27 g in steps of 20 g', 6391.52, {
      sources: [tub(0, 0.168, 10_406.23, 404, 20), tub(1, 0.072, 15_597.16, 404, 20), tub(2, 0.17, 1544.19, 252, 20)],
      batchGrams: 16_400.27, fat: { min: 0.02, max: 0.14 } }],
    ['38,186.38 g in steps of 0.1 lb', 8163.03, {
      sources: [tub(0, 0.828, 29_452.33, 137, 45.359237), tub(1, 0.111, 47_459.05, 470, 45.359237), tub(2, 0.435, 854.17, 255, 45.359237)],
      batchGrams: 38_186.38, fat: { min: 0.539, max: 0.66 } }],
    ['37,513.49 g in steps of 50 g with share limits', 15_400.7, {
      sources: [{ ...tub(0, 0.894, 30_762.48, 451, 50), minShare: 0.286 }, { ...tub(1, 0.546, 26_142.91, 302, 50), maxShare: 0.55 }, tub(2, 0.225, 18_308.35, 715, 50)],
      batchGrams: 37_513.49, fat: { min: 0.492, max: 0.598 } }],
  ])('is made at the least cost: %s', async (_, least, request) => {
    expect(cheapestInSteps(request)).toBeCloseTo(least, 2);
    expectCheapest((await plan(request)).cost, cheapestInSteps(request));
  }); // prettier-ignore

  it('is feasible where whole steps come within half a step of it, with mandatory trim', async () => {
    const step = 2.2679618;
    const request = {
      sources: [
        tub(0, 0.34, 732.5516614, 307.81, step),
        { ...tub(1, 0.46117914910428226, 752.9633176, 216.71, step), useAll: true },
        tub(2, 1, 405.9651622, 795.14, step),
        tub(3, 0.1425858864095062, 756.787, 0, step),
      ],
      batchGrams: 2193.7836,
      fat: { min: 0.47637, max: 0.50018 },
    };
    expectCheapest((await plan(request)).cost, cheapestInSteps(request));
  });

  it('takes the cheaper of two equally near sizes', async () => {
    const sources = [tub(0, 0.1, 5000, 100, 20), tub(1, 0.9, 5000, 300, 20)];
    const found = await plan({ sources, batchGrams: 1010, fat: { min: 0, max: 1 } });
    expect(found.batchGrams).toBe(1000);
    const burden = sources.map((source) => ({ ...source, costPerKg: -source.costPerKg }));
    expect((await plan({ sources: burden, batchGrams: 1010, fat: { min: 0, max: 1 } })).batchGrams).toBe(
      1020,
    );
  });

  it(
    'is met as nearly as steps can, at the least cost of all combinations of steps',
    async () => {
      const cheapestOfAll = async ({ request }: Feasible): Promise<void> => {
        const found = await plan(request);
        const step = request.sources.find(({ stepGrams }) => stepGrams)?.stepGrams as number;
        expect(Math.abs(found.batchGrams - (request.batchGrams ?? 0))).toBeLessThanOrEqual(0.491 * step);
        expectCheapest(found.cost, cheapestInSteps(request));
      };
      await fc.assert(fc.asyncProperty(offTheStep, cheapestOfAll), { numRuns: runs(700) });
    },
    LONG,
  );
});

describe('a feasible batch', () => {
  // Little is wanted of much that lies on hand: the solver's tolerance must be a part of the batch, not of the stock.
  const trim = { fatSd: 0.02, costPerKg: 0, useAll: true };
  const fat = { fatSd: 0.03 };
  it.each<[string, BlendRequest]>([
    ['45 g of trim beside a ton of fat', {
      sources: [
        { ...trim, id: 'trim', fat: 0.09950445978902281, availableGrams: 45.24786819452221 },
        { ...fat, id: 'a', fat: 0.5169579586945474, availableGrams: 233_679.313, costPerKg: 0 },
        { ...fat, id: 'b', fat: 0.8581155090859971, availableGrams: 34.418532727643, costPerKg: 0 },
        { ...fat, id: 'c', fat: 0.629122878308408, availableGrams: 335_920.528, costPerKg: 552 },
        { ...fat, id: 'd', fat: 0.8720041471533477, availableGrams: 537_456.697, costPerKg: 789 },
      ],
      fat: { min: 0.41026400269726704, max: 0.41026400269726704 }, sureBelow: { fat: 0.41459881900595913, probability: 0.9 } }],
    ['17 g of trim beside 34 kg of fat', {
      sources: [
        { ...trim, id: 'trim', fat: 0.16585919903591276, availableGrams: 17.262353022960006 },
        { ...fat, id: 'a', fat: 0.957537843612954, availableGrams: 15_108.84, costPerKg: 0 },
        { ...fat, id: 'b', fat: 0.86481088551227, availableGrams: 32.773674379640575, costPerKg: 175 },
        { ...fat, id: 'c', fat: 0.7785386299947277, availableGrams: 18_701.01, costPerKg: 419 },
      ],
      fat: { min: 0.2508554987503743, max: 0.2508554987503743 }, sureBelow: { fat: 0.2541422790602377, probability: 0.9 } }],
  ])('is answered, never thrown at: %s', async (_, request) => {
    expect(await planBlend(frozen(request))).toMatchObject({ kind: 'impossible', why: { code: 'not-sure' } });
  }); // prettier-ignore

  it(
    'is always planned, and never at more than the batch it was made from',
    async () => {
      let loose = 0;
      const planned = async ({ request, cost }: Feasible): Promise<void> => {
        const found = await plan(request);
        expectCheapest(found.cost, cost);
        if (request.sources.some(({ stepGrams }) => stepGrams)) return;
        loose++;
        const least = simplexCost(request);
        expect(Math.abs(found.cost - least)).toBeLessThanOrEqual(1e-5 * Math.abs(least) + 1e-4);
      };
      await fc.assert(fc.asyncProperty(canBeMade, planned), { numRuns: runs(1000) });
      expect(loose).toBeGreaterThan(100);
    },
    LONG,
  );
});

describe('lots of equal price', () => {
  it(
    'are used up oldest first, step by step until the fat is reached',
    async () => {
      const inTurn = async (queue: Queue): Promise<void> => {
        const [, ...lots] = (await plan(queue.request)).parts;
        const expected = oldestFirst(queue);
        lots.forEach(({ grams }, i) => expect(grams).toBeCloseTo(expected[i] as number, 6));
      };
      await fc.assert(fc.asyncProperty(lotsInLine, inTurn), { numRuns: runs(1000) });
    },
    LONG,
  );

  const lot = { fat: 0.94, costPerKg: 735.4, stepGrams: 0.02 * POUND };
  const trim = { id: 'trim', fat: 0.0336, availableGrams: 116.33 * POUND, costPerKg: 0, useAll: true };
  const fat = { min: 0.19992, max: 0.20008 };

  it('are opened only when their predecessor is used up, although others would be as good', async () => {
    const sources = [25.03, 29.31, 12.29, 28.75].map((lb, turn) => ({ ...lot, id: `${turn}`, availableGrams: lb * POUND, queuePosition: turn }));
    const found = await plan({ sources: [trim, ...sources], fat });
    const pounds = found.parts.map(({ grams }) => grams / POUND);
    expect(pounds[1]).toBeCloseTo(25.02, 6);
    expect(pounds.slice(3)).toEqual([0, 0]);
  }); // prettier-ignore

  it('keep their order where the older one is leaner, and so more of it is needed', async () => {
    const older = { ...lot, id: 'older', fat: 0.8, availableGrams: 10 * POUND, queuePosition: 0 };
    const newer = { ...lot, id: 'newer', availableGrams: 100 * POUND, queuePosition: 1 };
    const found = await plan({ sources: [trim, newer, older], fat });
    expect(found.parts.find(({ id }) => id === 'older')?.grams).toBeCloseTo(10 * POUND, 6);
  });

  it('ignore their order where no batch is feasible in order', async () => {
    const older = { ...lot, id: 'older', fat: 0.1, availableGrams: 1000 * POUND, queuePosition: 0 };
    const newer = { ...lot, id: 'newer', availableGrams: 100 * POUND, queuePosition: 1 };
    const found = await plan({ sources: [trim, older, newer], fat });
    expect(found.parts.find(({ id }) => id === 'newer')?.grams).toBeGreaterThan(0);
  });

  it('skip empty lots, and a more expensive lot waits only for the cheaper one', async () => {
    const sources = [
      { ...lot, id: 'first', availableGrams: 5 * POUND, queuePosition: 0 },
      { ...lot, id: 'empty', availableGrams: 0, queuePosition: 1 },
      { ...lot, id: 'last', availableGrams: 100 * POUND, queuePosition: 2 },
      { ...lot, id: 'oldest but dear', costPerKg: 900, availableGrams: 100 * POUND, queuePosition: -1 },
    ];
    const grams = Object.fromEntries((await plan({ sources: [trim, ...sources], fat })).parts.map(({ id, grams }) => [id, grams]));
    expect(grams.first).toBeCloseTo(5 * POUND, 6);
    expect(grams['oldest but dear']).toBe(0);
    expect(grams.last).toBeGreaterThan(0);
  }); // prettier-ignore
});

/** The least cost of a batch that is weighed out freely, by an independent simplex. */
function simplexCost({ sources, batchGrams, fat }: BlendRequest): number {
  const constraints: Record<string, { min?: number; max?: number; equal?: number }> = {
    above: { min: 0 },
    below: { max: 0 },
    ...(batchGrams !== undefined && { size: { equal: batchGrams / 1000 } }),
  };
  const variables: Record<string, Record<string, number>> = {};
  sources.forEach((source, i) => {
    const kilos = source.availableGrams / 1000;
    constraints[`has${i}`] = source.useAll ? { equal: kilos } : { max: kilos };
    const limited = source.maxShare !== undefined && source.maxShare < 1;
    if (limited) constraints[`share${i}`] = { max: 0 };
    variables[source.id] = {
      cost: source.costPerKg,
      size: 1,
      above: source.fat - fat.min,
      below: source.fat - fat.max,
      [`has${i}`]: 1,
      ...Object.fromEntries(
        sources.flatMap((other, j) =>
          other.maxShare !== undefined && other.maxShare < 1
            ? [[`share${j}`, (i === j ? 1 : 0) - other.maxShare]]
            : [],
        ),
      ),
    };
  });
  const found = solver.Solve({ optimize: 'cost', opType: 'min', constraints, variables }) as unknown as {
    feasible: boolean;
    result: number;
  };
  expect(found.feasible).toBe(true);
  return found.result;
}
