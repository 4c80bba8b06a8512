import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jointFat, type FatPredictor } from '../../../src/core/fat/joint.ts';
import { withOneOfKind } from '../../../src/core/fat/kind.ts';
import { updateFatEstimates, type CorrelatedFatEstimate } from '../../../src/core/fat/fat.ts';
import { frozen } from '../blend/requests.ts';

/** An animal of a kind that no test spoke of: its mean ± 0.03 is shared, its own part ± 0.02. */
const deer = (id: number): FatPredictor => ({
  offset: 0.05,
  terms: { deer: 0.0009, [`trim ${id}`]: 0.0004 },
});

describe('jointFat', () => {
  it('does not average out shared variance: ten deer give √(0.0009 + 0.0004 / 10)', () => {
    const joint = jointFat([]);
    const batch = (n: number) => Array.from({ length: n }, (_, i) => ({ of: deer(i), weight: 1 / n }));
    expect(joint.estimate(deer(1))).toEqual({ mean: 0.05, sd: expect.closeTo(Math.sqrt(0.0013), 12) });
    expect(joint.sdOfSum(batch(10))).toBeCloseTo(Math.sqrt(0.00094), 12);
    expect(joint.sdOfSum(batch(10_000))).toBeCloseTo(0.03, 5);
    expect(joint.covariance(deer(1), deer(2))).toBeCloseTo(0.0009, 12);
    expect(joint.covariance(deer(1), deer(1))).toBeCloseTo(0.0013, 12);
    expect(joint.covariance(deer(1), { offset: 0.9, terms: { lot: 0.01 } })).toBe(0);
  });

  it('treats one source weighed twice as one unknown', () => {
    const twice = [deer(1), deer(1)].map((of) => ({ of, weight: 0.5 }));
    expect(jointFat([]).sdOfSum(twice)).toBeCloseTo(Math.sqrt(0.0013), 12);
  });

  it('is wᵀΣw over the single covariances, whatever the tests', () => {
    const part = fc.record({ which: fc.nat(4), weight: fc.integer({ min: -50, max: 100 }) });
    const start: CorrelatedFatEstimate[] = [
      { id: 'shop', mean: 0, sd: 1 },
      { id: 'lot', mean: 0.8, sd: 0.05 },
    ];
    const kind = withOneOfKind(start, { id: 'elk', kind: 'shop', offset: 0.03, loading: 0.02, ownSd: 0.02 });
    const beliefs = withOneOfKind(kind, { id: 'trim 7', kind: 'elk', ownSd: 0.01 });
    const tested = updateFatEstimates(frozen(beliefs), {
      parts: [{ id: 'trim 7', grams: 800 }, { id: 'lot', grams: 200 }],
      measuredFat: 0.2,
      measuredSd: 0.01,
    }); // prettier-ignore
    const joint = jointFat(frozen(tested));
    const itself = (id: string): FatPredictor => ({ offset: 0, on: { id, loading: 1 }, terms: {} });
    const sources: FatPredictor[] = [
      itself('trim 7'),
      itself('lot'),
      { ...itself('elk'), terms: { 'trim 9': 0.0001 } },
      { ...itself('elk'), terms: { 'trim 10': 0.0001 } },
      { offset: 0.05, on: { id: 'shop', loading: 0.03 }, terms: { deer: 0.0004, 'trim 11': 0.0001 } },
    ];
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 8 }), (parts) => {
        const of = parts.map(({ which, weight }) => ({ of: sources[which] as FatPredictor, weight }));
        let variance = 0;
        for (const one of of)
          for (const other of of) variance += one.weight * other.weight * joint.covariance(one.of, other.of);
        expect(joint.sdOfSum(of) ** 2).toBeCloseTo(variance, 9);
      }),
    );
    expect(joint.estimate(itself('trim 7'))).toMatchObject({
      mean: tested[3]?.mean,
      sd: expect.closeTo(tested[3]?.sd ?? NaN, 12),
    });
    expect(() => joint.estimate(itself('moose'))).toThrow(
      expect.objectContaining({ code: 'fat.unknown-source' }),
    );
  });
});
