/** What sources share in a plan's range and in the promise to stay below a fat. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBlend, type BlendRequest, type BlendSource } from '../../../src/core/blend/blend.ts';
import { frozen } from './requests.ts';

const Z95 = 1.6448536269514722;

/** Tubs whose fat hangs on one common unknown ± shared, each with ± own of its own. */
function tubs(n: number, shared: number, own: number, more: Partial<BlendSource> = {}): BlendSource[] {
  return Array.from({ length: n }, (_, i) => ({
    id: `tub ${i}`,
    fat: 0.06,
    fatSd: Math.hypot(shared, own),
    fatCovariance: Object.fromEntries(Array.from({ length: i }, (_, j) => [`tub ${j}`, shared ** 2])),
    availableGrams: 1000,
    costPerKg: 0,
    useAll: true,
    ...more,
  }));
}
const whole = (sources: BlendSource[]): BlendRequest => frozen({ sources, fat: { min: 0, max: 1 } });

describe('the range of a plan', () => {
  it.each([1, 2, 4, 6, 10])(
    'of %i tubs of one kind is √(shared² + own² / n) wide, not √(sd² / n)',
    async (n) => {
      const plan = await planBlend(whole(tubs(n, 0.03, 0.02)));
      if (plan.kind !== 'plan') throw new Error(plan.kind);
      expect(plan.fatRange.high).toBeCloseTo(0.06 + Z95 * Math.sqrt(0.0009 + 0.0004 / n), 12);
    },
  );

  it('is the same whichever source of a pair names the other, or both', async () => {
    const [one, two] = tubs(2, 0.03, 0.02) as [BlendSource, BlendSource];
    const named = { ...one, fatCovariance: { 'tub 1': 0.0009 } };
    const ways: BlendSource[][] = [
      [one, two],
      [named, two],
      [named, { ...two, fatCovariance: {} }],
    ];
    const plans = await Promise.all(ways.map((sources) => planBlend(whole(sources))));
    const ranges = plans.map((plan) => (plan.kind === 'plan' ? plan.fatRange.high : NaN));
    expect(ranges[1]).toBeCloseTo(ranges[0] as number, 12);
    expect(ranges[2]).toBeCloseTo(ranges[0] as number, 12);
  });

  it.each<[string, Record<string, number>, string]>([
    ['a source that is not there', { elsewhere: 0.0001 }, 'fat.unknown-source'],
    ['itself', { 'tub 1': 0.0001 }, 'fat.unknown-source'],
    ['a covariance above what the spreads allow', { 'tub 0': 0.0014 }, 'share.out-of-range'],
    ['a covariance that is no number', { 'tub 0': NaN }, 'number.not-finite'],
  ])('refuses %s', async (_, fatCovariance, code) => {
    const [one, two] = tubs(2, 0.03, 0.02) as [BlendSource, BlendSource];
    await expect(planBlend(whole([one, { ...two, fatCovariance }]))).rejects.toMatchObject({ code });
  });

  it('refuses two figures for one pair', async () => {
    const [one, two] = tubs(2, 0.03, 0.02) as [BlendSource, BlendSource];
    const sources = [{ ...one, fatCovariance: { 'tub 1': 0.0005 } }, two];
    await expect(planBlend(whole(sources))).rejects.toMatchObject({ code: 'share.out-of-range' });
  });
});

describe('the probability of staying below a fat', () => {
  it('includes shared variance: cheap fat is limited by all sources together', async () => {
    const gram = fc.integer({ min: 5, max: 40 }).map((n) => n / 1000);
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 6 }), gram, gram, async (n, shared, own) => {
        const fat = { id: 'fat', fat: 0.9, fatSd: 0.02, availableGrams: 5000, costPerKg: -100 };
        const request = frozen({
          sources: [...tubs(n, shared, own), fat],
          fat: { min: 0, max: 1 },
          sureBelow: { fat: 0.3, probability: 0.95 },
        });
        const plan = await planBlend(request);
        if (plan.kind !== 'plan') throw new Error(plan.kind);
        // By hand: x grams of fat to n kg of trim, mean + z·sd of the fat mass at 30 % of the batch, found by halving.
        const over = (x: number): number => {
          const variance = (n * 1000 * shared) ** 2 + n * (1000 * own) ** 2 + (0.02 * x) ** 2;
          return n * 60 + 0.9 * x + Z95 * Math.sqrt(variance) - 0.3 * (n * 1000 + x);
        };
        let [low, high] = [0, 5000];
        if (over(high) > 0) for (let i = 0; i < 60; i++) [low, high] = over((low + high) / 2) > 0 ? [low, (low + high) / 2] : [(low + high) / 2, high]; // prettier-ignore
        expect(plan.parts.at(-1)?.grams).toBeCloseTo(high, 1);
        expect(plan.probabilityBelow).toBeGreaterThanOrEqual(0.95 - 1e-6);
      }),
      { numRuns: 25 },
    );
  });
});
