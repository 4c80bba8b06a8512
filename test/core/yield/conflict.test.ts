/** Where animals contradict a first guess, against a slow integral over a grid. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitSplit, predictiveAt, type GroupStatistics } from '../../../src/core/yield/fit.ts';
import { crossProductsOf, meanAt, posteriorOf } from '../../../src/core/yield/regression.ts';
import type { Column } from '../../../src/core/yield/columns.ts';

const heapOf = (values: readonly number[], places: readonly number[], species = 'elk'): GroupStatistics => ({
  columnIndices: places,
  species,
  n: values.length,
  sum: values.reduce((total, z) => total + z, 0),
  squares: values.reduce((total, z) => total + z * z, 0),
});

/** Posterior mean of one effect with the two-component prior, by summing over a grid of effects and variances. */
function meanByGrid(values: readonly number[], variance: number, weight: number): number {
  let [mass, moment] = [0, 0];
  for (let b = -12; b <= 12; b += 0.02)
    for (let log = -4; log <= 5; log += 0.05) {
      const s2 = Math.exp(log);
      const normal = (x: number, v: number): number => Math.exp((-x * x) / (2 * v)) / Math.sqrt(v);
      const prior = (1 - weight) * normal(b, s2 * variance) + weight * normal(b, s2 * (variance + 6));
      // Inverse gamma with 10 degrees and scale 8, on a grid of the logarithm.
      const spread = s2 ** -5 * Math.exp(-4 / s2);
      const at = values.reduce((product, z) => product * normal(z - b, s2), prior * spread);
      mass += at;
      moment += at * b;
    }
  return moment / mass;
}

/** A shop that knows all but the new species: 240 animals, half 1 above and half 1 below the mean. */
const ordinary = Array.from({ length: 240 }, (_, i) => (i % 2 === 0 ? 1 : -1));
const COLUMNS: readonly Column[] = [
  { name: 'shop:', priorMean: 0, variance: 0.12 },
  { name: 'species:deer', priorMean: 0, variance: 0.2, robustWeight: 0.05 },
  { name: 'species:elk', priorMean: 0, variance: 0.2, robustWeight: 0.05 },
];
const NORMAL = COLUMNS.map((column) => ({ ...column, robustWeight: 0 }));
const elkAfter = (columns: readonly Column[], seen: readonly number[]) =>
  predictiveAt(
    fitSplit(columns, [heapOf(ordinary, [0, 1], 'deer'), heapOf(seen, [0, 2], 'elk')]),
    'elk',
    [0, 2],
  );

describe('a robust prior', () => {
  it.each([
    [[0.1, 0.3]],
    [[3, 2.2, 3.5]],
    [[5.5]],
    [[4, 4.4, 3.6, 4.1]],
  ])('moves the mean of one effect as the integral over a grid does: %j', (values) => {
    const fit = fitSplit([{ name: 'x:', priorMean: 0, variance: 0.2, robustWeight: 0.05 }], [heapOf(values, [0])]);
    expect(fit.effects[0]).toBeCloseTo(meanByGrid(values, 0.2, 0.05), 2);
  }); // prettier-ignore

  it('yields to a species far off, where a normal prior does not', () => {
    const seen = [3.7, 2.9, 4.4, 3.2, 4.3];
    expect(elkAfter(NORMAL, seen).location).toBeLessThan(2.3);
    expect(elkAfter(COLUMNS, seen).location).toBeGreaterThan(3.3);
  });

  it('widens at the first contradicting animal, and narrows again once others confirm it', () => {
    const [agreeing, off, borneOut] = [[0], [3.7], [3.7, 2.9, 4.4, 3.2, 4.3]].map(
      (seen) => elkAfter(COLUMNS, seen).scale,
    ) as [number, number, number];
    expect(off).toBeGreaterThan(1.25 * agreeing);
    expect(off).toBeGreaterThan(1.15 * elkAfter(NORMAL, [3.7]).scale);
    expect(borneOut).toBeLessThan(1.1 * agreeing);
  });

  it.each([[[0.4]], [[1, -1, 0.3]], [[-1, 1, 1, -1, 0.6]]])('does not change the range where animals agree: %j', (seen) => {
    const [robust, normal] = [elkAfter(COLUMNS, seen), elkAfter(NORMAL, seen)];
    expect(robust.scale / normal.scale).toBeLessThan(1.02);
    expect(Math.abs(robust.location - normal.location)).toBeLessThan(0.05);
  }); // prettier-ignore

  it('does not depend on the order of the columns', () => {
    const seen = [3.7, 2.9];
    const heaps = (deer: number[], elk: number[]) => [
      heapOf(ordinary, deer, 'deer'),
      heapOf(seen, elk, 'elk'),
    ];
    const turned = fitSplit([...COLUMNS].reverse(), heaps([2, 1], [2, 0]));
    const again = predictiveAt(turned, 'elk', [2, 0]);
    const { location, scale } = elkAfter(COLUMNS, seen);
    expect(again.location).toBeCloseTo(location, 10);
    expect(again.scale).toBeCloseTo(scale, 10);
  });

  it('cannot attribute a deviation to one of two effects, but learns their sum', () => {
    const columns = ['species:elk', 'brought:quarters'].map((name): Column => ({
      name,
      priorMean: 0,
      variance: 0.1,
      robustWeight: 0.05,
    }));
    const seen = Array.from({ length: 40 }, (_, i) => 2 + (i % 2 === 0 ? 0.5 : -0.5));
    const { location, scale } = predictiveAt(fitSplit(columns, [heapOf(seen, [0, 1])]), 'elk', [0, 1]);
    expect(location).toBeGreaterThan(1.85);
    expect(scale).toBeLessThan(0.75);
  });
});

it('without robust priors every animal increases the information on every mean', () => {
  const value = fc.double({ min: -4, max: 4, noNaN: true });
  const kind = fc.constantFrom([0, 1], [0, 2]);
  fc.assert(
    fc.property(fc.array(fc.tuple(value, kind), { maxLength: 20 }), value, kind, kind, (seen, z, places, asked) => {
      const heaps = seen.map(([one, at]) => heapOf([one], at));
      const before = meanAt(posteriorOf(NORMAL, crossProductsOf(3, heaps)), asked).variance;
      const after = meanAt(posteriorOf(NORMAL, crossProductsOf(3, [...heaps, heapOf([z], places)])), asked).variance;
      expect(after).toBeLessThanOrEqual(before * (1 + 1e-9));
    }),
  );
}); // prettier-ignore
