/** Blends that a scale can weigh out for certain, because each is made from such a batch; and slow, obvious searches. */
import fc from 'fast-check';
import type { BlendRequest, BlendSource } from '../../../src/core/blend/blend.ts';
import { frozen } from './requests.ts';

/** 0.005, 0.01, 0.02, 0.1 and 0.5 lb, and steps of grams. */
const steps = fc.constantFrom(2.2679618, 4.5359237, 9.0718474, 45.359237, 226.796185, 5, 10, 20, 50);
const thousandths = (most: number): fc.Arbitrary<number> => fc.nat({ max: most }).map((n) => n / 1000);

interface Tub {
  fat: number;
  taken: number;
  more: number;
  crumb: number;
  costPerKg: number;
}

const tub = (mostSteps: number): fc.Arbitrary<Tub> =>
  fc.record({
    fat: thousandths(1000),
    taken: fc.nat({ max: mostSteps }),
    more: fc.nat({ max: mostSteps }),
    crumb: thousandths(999),
    costPerKg: fc.nat({ max: 900 }),
  });

/** A request, and what the batch that it was made from costs. */
export interface Feasible {
  request: BlendRequest;
  cost: number;
}

/**
 * Two or three tubs weighed in steps of one scale, a fixed size that falls between two steps, and a fat range around a
 * batch of that size. Few enough steps to try them all.
 */
export const offTheStep: fc.Arbitrary<Feasible> = feasible(
  fc.array(tub(350), { minLength: 2, maxLength: 3 }),
  {
    kinds: ['stepped'],
    fixed: true,
  },
);

/** Two to six tubs, all in steps, all weighed out freely, or some of each; the size fixed or open. */
export const canBeMade: fc.Arbitrary<Feasible> = feasible(
  fc.array(tub(2000), { minLength: 2, maxLength: 6 }),
  {
    kinds: ['stepped', 'loose', 'both'],
    fixed: false,
  },
);

function feasible(
  tubs: fc.Arbitrary<Tub[]>,
  { kinds, fixed }: { kinds: ('stepped' | 'loose' | 'both')[]; fixed: boolean },
): fc.Arbitrary<Feasible> {
  return fc
    .record({
      tubs,
      step: steps,
      kind: fc.constantFrom(...kinds),
      whole: fc.boolean(),
      open: fc.boolean(),
      off: fc.integer({ min: -490, max: 490 }).map((n) => n / 1000),
      below: thousandths(60),
      above: thousandths(60).map((width) => width + 0.001),
      share: fc.option(thousandths(300), { nil: undefined }),
    })
    .filter((drawn) => drawn.tubs.slice(1).some(({ taken }) => taken > 0) && (drawn.tubs[0]?.taken ?? 0) > 0)
    .map((drawn) => {
      const stepped = (i: number): boolean =>
        drawn.kind === 'stepped' || (drawn.kind === 'both' && i % 2 === 1);
      const grams = drawn.tubs.map(({ taken }) => taken * drawn.step);
      const total = grams.reduce((sum, one) => sum + one, 0);
      const mixed = drawn.tubs.reduce((sum, { fat }, i) => sum + fat * (grams[i] as number), 0) / total;
      const open = drawn.whole && drawn.open && !fixed;
      const sources = drawn.tubs.map(({ fat, taken, more, crumb, costPerKg }, i): BlendSource => ({
        id: `tub ${i}`,
        fat,
        costPerKg,
        availableGrams: i === 0 && drawn.whole ? taken * drawn.step : (taken + more + crumb) * drawn.step,
        ...(i === 0 && drawn.whole ? { useAll: true } : stepped(i) && { stepGrams: drawn.step }),
        ...(i === 1 && drawn.share !== undefined && { maxShare: Math.min(1, (grams[1] as number) / total + drawn.share + 0.01) }),
      })); // prettier-ignore
      const off = drawn.kind === 'stepped' ? drawn.off * drawn.step : 0;
      return {
        request: frozen({
          sources,
          ...(!open && { batchGrams: total + off }),
          fat: { min: Math.max(0, mixed - drawn.below), max: Math.min(1, mixed + drawn.above) },
        }),
        cost: costOf(sources, grams),
      };
    });
}

/** Least cost of a batch of the size nearest to the one asked, every combination of whole steps tried. */
export function cheapestInSteps(request: BlendRequest): number {
  const { sources, fat, batchGrams = 0 } = request;
  const chosen = sources.filter(({ useAll }) => !useAll);
  const step = chosen[0]?.stepGrams as number;
  const fixed = sources.filter(({ useAll }) => useAll).reduce((sum, one) => sum + one.availableGrams, 0);
  const size = Math.round((batchGrams - fixed) / step);
  const total = fixed + size * step;
  const most = chosen.map(({ availableGrams }) => Math.floor(availableGrams / step + 1e-9));
  let best = Infinity;
  const taken: number[] = [];
  const weigh = (): void => {
    let next = 0;
    const grams = sources.map((one) => (one.useAll ? one.availableGrams : (taken[next++] as number) * step));
    const mixed = sources.reduce((sum, one, i) => sum + one.fat * (grams[i] as number), 0) / total;
    if (mixed < fat.min - 1e-12 || mixed > fat.max + 1e-12) return;
    if (sources.some(({ maxShare = 1 }, i) => (grams[i] as number) > maxShare * total + 1e-9)) return;
    best = Math.min(best, costOf(sources, grams));
  };
  const visit = (index: number, left: number): void => {
    if (index === chosen.length - 1) {
      taken[index] = left;
      if (left <= (most[index] as number)) weigh();
      return;
    }
    for (let n = 0; n <= Math.min(left, most[index] as number); n++) {
      taken[index] = n;
      visit(index + 1, left - n);
    }
  };
  visit(0, size);
  return best;
}

function costOf(sources: readonly BlendSource[], grams: readonly number[]): number {
  return sources.reduce((sum, { costPerKg }, i) => sum + (costPerKg * (grams[i] as number)) / 1000, 0);
}

export interface Queue {
  request: BlendRequest;
  step: number;
}

/** Trim, and two to four lots of one price and one fat, oldest first, of which a part is needed for the target. */
export const lotsInLine: fc.Arbitrary<Queue> = fc
  .record({
    step: fc.constantFrom(0.01, 0.02, 0.05, 0.1),
    lean: fc.constantFrom(0.0145, 0.0242, 0.0336),
    rich: fc.constantFrom(0.8869, 0.94),
    target: fc.constantFrom(0.1, 0.125, 0.15, 0.2, 0.3),
    trimLb: fc.integer({ min: 500, max: 12_000 }).map((n) => n / 100),
    lots: fc.array(
      fc.integer({ min: 50, max: 3000 }).map((n) => n / 100),
      { minLength: 2, maxLength: 4 },
    ),
    cents: fc.integer({ min: 0, max: 400 }),
  })
  .filter(({ lean, rich, target, trimLb, lots, step }) => {
    const need = (trimLb * (target - lean)) / (rich - target);
    return lots.reduce((sum, one) => sum + Math.floor(one / step) * step, 0) >= need + step;
  })
  .map(({ step, lean, rich, target, trimLb, lots, cents }) => {
    const need = (trimLb * (target - lean)) / (rich - target);
    const slack = (0.5001 * step * (rich - target)) / (trimLb + need);
    const lot = (lb: number, turn: number): BlendSource => ({
      id: `lot ${turn}`,
      fat: rich,
      availableGrams: lb * POUND,
      costPerKg: (cents * 1000) / POUND,
      stepGrams: step * POUND,
      queuePosition: turn,
    });
    const trim = { id: 'trim', fat: lean, availableGrams: trimLb * POUND, costPerKg: 0, useAll: true };
    return {
      request: frozen({
        sources: [trim, ...lots.map(lot)],
        fat: { min: target - slack, max: target + slack },
      }),
      step: step * POUND,
    };
  });

const POUND = 453.59237;

/** Grams of each lot when whole steps are taken off the oldest, then the next, until the fat is first in its range. */
export function oldestFirst({ request: { sources, fat }, step }: Queue): number[] {
  const [trim, ...lots] = sources;
  const most = lots.map(({ availableGrams }) => Math.floor(availableGrams / step + 1e-9));
  const lean = trim?.availableGrams ?? 0;
  for (let n = 0; n <= most.reduce((sum, one) => sum + one, 0); n++) {
    const mixed = ((trim?.fat ?? 0) * lean + (lots[0]?.fat ?? 0) * n * step) / (lean + n * step);
    if (mixed < fat.min - 1e-12) continue;
    let left = n;
    return most.map((one) => {
      const taken = Math.min(one, left);
      left -= taken;
      return taken * step;
    });
  }
  throw new Error('not enough in all lots');
}
