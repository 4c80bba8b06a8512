/** Blend requests for the tests: random ones, a frozen copy, and a slow, obvious search to hold the solver against. */
import fc from 'fast-check';
import type { BlendPart, BlendRequest, BlendSource } from '../../../src/core/blend/blend.ts';

export function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
  return value;
}

const source = fc.record({
  fat: fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000),
  fatSd: fc.integer({ min: 0, max: 80 }).map((n) => n / 1000),
  availableGrams: fc.integer({ min: 1, max: 20_000 }),
  costPerKg: fc.integer({ min: 0, max: 900 }),
});
const limits = fc
  .tuple(fc.integer({ min: 0, max: 600 }), fc.integer({ min: 5, max: 300 }))
  .map(([min, width]) => ({ min: min / 1000, max: Math.min(1, (min + width) / 1000) }));

/** One to six sources, the first of which goes in whole unless a size is fixed; sometimes a share limit. */
export const anyRequest: fc.Arbitrary<BlendRequest> = fc
  .record({
    sources: fc.array(source, { minLength: 1, maxLength: 6 }),
    batchGrams: fc.option(fc.integer({ min: 100, max: 30_000 }), { nil: undefined }),
    fat: limits,
    maxShare: fc.option(
      fc.integer({ min: 300, max: 1000 }).map((n) => n / 1000),
      { nil: undefined },
    ),
  })
  .map(({ sources, batchGrams, fat, maxShare }) =>
    frozen({
      sources: sources.map((one, i) => ({
        ...one,
        id: `tub ${i}`,
        ...(i === 0 && batchGrams === undefined && { useAll: true }),
        ...(i === 1 && maxShare !== undefined && { maxShare }),
      })),
      batchGrams,
      fat,
    }),
  );

/** Two or three sources weighed in steps of 100 g, few enough steps to try them all. */
export const steppedRequest: fc.Arbitrary<BlendRequest> = fc
  .record({
    sources: fc.array(
      fc.record({
        fat: fc.integer({ min: 0, max: 20 }).map((n) => n / 20),
        availableGrams: fc.integer({ min: 1, max: 900 }),
        costPerKg: fc.integer({ min: 1, max: 900 }),
      }),
      { minLength: 2, maxLength: 3 },
    ),
    whole: fc.boolean(),
    batchSteps: fc.integer({ min: 1, max: 20 }),
    fat: limits,
  })
  .map(({ sources, whole, batchSteps, fat }) =>
    frozen({
      sources: sources.map((one, i) => ({
        ...one,
        id: `tub ${i}`,
        ...(i === 0 && whole ? { useAll: true } : { stepGrams: 100 }),
      })),
      ...(!whole && { batchGrams: batchSteps * 100 }),
      fat,
    }),
  );

/** The cheapest cost of a stepped request by trying every combination of steps; null when none will do. */
export function everyStep(request: BlendRequest): number | null {
  let best: number | null = null;
  const grams: number[] = [];
  const visit = (index: number): void => {
    const next = request.sources[index];
    if (!next) {
      const total = grams.reduce((sum, part) => sum + part, 0);
      const fat = amount(request.sources, grams, 'fat') / total;
      const fits =
        total > 0 &&
        (request.batchGrams === undefined || total === request.batchGrams) &&
        fat >= request.fat.min - 1e-9 &&
        fat <= request.fat.max + 1e-9;
      const cost = amount(request.sources, grams, 'costPerKg') / 1000;
      if (fits && (best === null || cost < best)) best = cost;
      return;
    }
    const choices = next.useAll ? [next.availableGrams] : stepsOf(next);
    for (const choice of choices) {
      grams[index] = choice;
      visit(index + 1);
    }
  };
  visit(0);
  return best;
}

function stepsOf({ availableGrams, stepGrams = 1 }: BlendSource): number[] {
  return Array.from({ length: Math.floor(availableGrams / stepGrams) + 1 }, (_, i) => i * stepGrams);
}

function amount(sources: readonly BlendSource[], grams: readonly number[], of: 'fat' | 'costPerKg'): number {
  return sources.reduce((sum, one, i) => sum + one[of] * (grams[i] as number), 0);
}

export function gramsById(parts: readonly BlendPart[]): Record<string, number> {
  return Object.fromEntries(parts.map(({ id, grams }) => [id, grams]));
}
