/** The animal-to-animal variance component against plain integration over its prior. */
import { describe, expect, it } from 'vitest';
import { PRIOR_SPREAD, updateSpread, spreadRatios, varianceRatio } from '../../../src/core/fat/spread.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { frozen } from '../blend/requests.ts';

const OWN = 0.0001;
const REST = 0.0002;

describe('varianceRatio', () => {
  it('is the mean of a log-normal before any test: exp(2 × 0.35²)', () => {
    expect(varianceRatio(PRIOR_SPREAD)).toBeCloseTo(Math.exp(2 * 0.35 ** 2), 7);
    const all = spreadRatios();
    expect(all.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
    expect(all.reduce((sum, { ratio, probability }) => sum + ratio * probability, 0)).toBeCloseTo(1.2776, 4);
  });
});

describe('updateSpread', () => {
  const told = (innovation: number, spread = PRIOR_SPREAD) => ({
    innovation,
    variance: REST + OWN * varianceRatio(spread),
    ownVariance: OWN,
  });

  it('grows with a large innovation, shrinks with a small one, and needs an own part to learn', () => {
    expect(varianceRatio(updateSpread(frozen(PRIOR_SPREAD), told(0.06)))).toBeGreaterThan(1.6);
    expect(varianceRatio(updateSpread(PRIOR_SPREAD, told(0)))).toBeLessThan(1.28);
    expect(updateSpread(PRIOR_SPREAD, { innovation: 0.06, variance: 0.0005, ownVariance: 0 })).toBe(
      PRIOR_SPREAD,
    );
  });

  it('converges to the true ratio with many animals of known mean', () => {
    for (const truth of [0.25, 1, 4]) {
      const chance = seededRandom(7);
      let spread = PRIOR_SPREAD;
      for (let i = 0; i < 2000; i++)
        spread = updateSpread(spread, told(Math.sqrt(REST + OWN * truth) * chance.normal(), spread));
      // 2000 draws tell a variance to √(2 / 2000) = 3 %, here of rest and own together; four of them either way.
      const error = (4 * 0.032 * (REST + OWN * truth)) / OWN;
      expect(Math.abs(varianceRatio(spread) - truth)).toBeLessThan(error);
    }
  });

  it('stays a distribution at an innovation of a thousand SDs', () => {
    const ratio = varianceRatio(updateSpread(PRIOR_SPREAD, told(10)));
    expect(ratio).toBeGreaterThan(10);
    expect(Number.isFinite(ratio)).toBe(true);
  });

  it.each([
    [{ innovation: NaN, variance: 1, ownVariance: 0.5 }, 'number.not-finite'],
    [{ innovation: 0, variance: 0, ownVariance: 0 }, 'fat.certain'],
    [{ innovation: 0, variance: 1, ownVariance: -1 }, 'share.out-of-range'],
  ])('refuses %o', (test, code) => {
    expect(() => updateSpread(PRIOR_SPREAD, test)).toThrow(expect.objectContaining({ code }));
  });
});
