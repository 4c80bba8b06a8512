import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import { describe, expect, it } from 'vitest';
import { normalCdf, tQuantile } from '../../../src/core/stats/distributions.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';

/** Chi-square of counts in equally likely classes; fails below one in ten thousand. */
function expectEven(counts: readonly number[], n: number): void {
  const expected = n / counts.length;
  const chi = counts.reduce((total, count) => total + (count - expected) ** 2 / expected, 0);
  expect(1 - chiSquareCdf(chi, counts.length - 1)).toBeGreaterThan(1e-4);
}

const classed = (values: readonly number[], classes: number): number[] => {
  const counts = Array.from({ length: classes }, () => 0);
  for (const value of values) counts[Math.min(classes - 1, Math.floor(value * classes))]! += 1;
  return counts;
};

const draws = <T>(n: number, draw: () => T): T[] => Array.from({ length: n }, draw);

describe('seededRandom', () => {
  it('repeats for the same seed and differs for another', () => {
    const first = draws(50, seededRandom(7).uniform);
    expect(draws(50, seededRandom(7).uniform)).toEqual(first);
    for (const seed of [8, -7, 7 + 2 ** 32, 0])
      expect(draws(50, seededRandom(seed).uniform)).not.toEqual(first);
  });

  it.each([1, 2, 3])('spreads uniform draws evenly, also in pairs (seed %i)', (seed) => {
    const { uniform } = seededRandom(seed);
    const values = draws(50_000, uniform);
    expect(Math.min(...values)).toBeGreaterThan(0);
    expect(Math.max(...values)).toBeLessThan(1);
    expectEven(classed(values, 50), values.length);
    const pairs = draws(50_000, () => (Math.floor(uniform() * 7) + uniform()) / 7);
    expectEven(classed(pairs, 49), pairs.length);
  });

  it('begins unlike from neighbouring seeds', () => {
    const firsts = Array.from({ length: 20_000 }, (_, seed) => seededRandom(seed).uniform());
    expectEven(classed(firsts, 40), firsts.length);
  });

  it('draws normals', () => {
    const { normal } = seededRandom(11);
    expectEven(
      classed(
        draws(50_000, () => normalCdf(normal())),
        40,
      ),
      50_000,
    );
  });

  it.each([0.5, 1, 4.5, 60])('draws gammas of shape %d: twice one is a chi-square', (shape) => {
    const { gamma } = seededRandom(12);
    const values = draws(20_000, () => chiSquareCdf(2 * gamma(shape), 2 * shape));
    expectEven(classed(values, 30), values.length);
  });

  it.each([3, 10, 200])('draws Student t with %i degrees', (degrees) => {
    const { studentT } = seededRandom(13);
    const edges = Array.from({ length: 19 }, (_, i) => tQuantile((i + 1) / 20, degrees));
    const counts = Array.from({ length: 20 }, () => 0);
    for (let i = 0; i < 20_000; i++) {
      const value = studentT(degrees);
      counts[edges.filter((edge) => edge < value).length]! += 1;
    }
    expectEven(counts, 20_000);
  });

  it('answers wrong input with a typed problem', () => {
    for (const seed of [0.5, Number.NaN, Infinity, 2 ** 53])
      expect(() => seededRandom(seed)).toThrow(expect.objectContaining({ code: 'random.seed' }));
    for (const shape of [0, -1, Number.NaN, Infinity])
      expect(() => seededRandom(1).gamma(shape)).toThrow(expect.objectContaining({ code: 'random.shape' }));
  });
});
