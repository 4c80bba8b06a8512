import { describe, expect, it } from 'vitest';
import { closedFit } from '../../../src/core/balance/closed-fit.ts';
import { compositionFit } from '../../../src/core/balance/composition.ts';
import type { PartsWeighed } from '../../../src/core/balance/part-shares.ts';
import { shareModel } from '../../../src/core/balance/share-model.ts';
import { sharePrior } from '../../../src/core/balance/share-prior.ts';
import { animalLog } from '../../../src/core/balance/sound-parts.ts';
import { probabilityOfNone } from '../../../src/core/yield/zero-damage.ts';
import { logSumExp } from '../../../src/core/stats/log-sum-exp.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';

const deer = SPECIES.find(({ code }) => code === 'white-tail');
if (!deer) throw new Error('no white-tail');
const model = shareModel(sharePrior(deer, 'carcass'));
const fit = closedFit(model);
const [meat = 0, fatSaved = 0, sinew = 0, bone = 0, damage = 0] = model.mean;
const rest = meat + fatSaved + sinew + bone;
const part = (share: number) => ({ share, sd: 0, open: false });
const shares: PartsWeighed = {
  meat: part(meat),
  fatSaved: part(fatSaved),
  sinew: part(sinew),
  bone: part(bone),
  damage: part(damage),
};

describe('how the sound parts divide', () => {
  it('takes a tenth of the usual sinew for a slip, and three times the usual fat for a fat animal', () => {
    // Two published standard deviations each: a normal distribution holds both for common.
    const little = fit({ ...shares, sinew: part(0.1 * sinew), meat: part(meat + 0.9 * sinew) });
    expect(little).toBeLessThan(fit(shares) - 5);
    const fat = fit({ ...shares, fatSaved: part(3 * fatSaved), meat: part(meat - 2 * fatSaved) });
    expect(fat).toBeGreaterThan(fit(shares) - 3);
  });

  it('counts what the others leave as the part that was not weighed', () => {
    const composition = compositionFit(model);
    const of = (...some: number[]): Float64Array => Float64Array.from(some.map((share) => share / rest));
    const whole = composition(of(meat, fatSaved, sinew, bone), 0b1111, 1);
    expect(whole).toBeCloseTo(0, 10);
    expect(composition(of(meat, fatSaved, 0, bone), 0b1011, 1)).toBeCloseTo(whole, 10);
    // Parts that outweigh their whole leave nothing.
    expect(composition(of(meat + sinew + 0.02, fatSaved, 0, bone), 0b1011, 1)).toBeLessThan(-10);
  });

  it('holds no share below none: the density integrates to the same with and without a part', () => {
    const composition = compositionFit(model);
    const steps = 4000;
    const integral = (meatShare: number): number =>
      logSumExp(
        Array.from({ length: steps }, (_, i) => {
          const sinewShare = ((i + 0.5) / steps) * (1 - meatShare - fatSaved / rest);
          const boneShare = 1 - meatShare - fatSaved / rest - sinewShare;
          return (
            composition(Float64Array.of(meatShare, fatSaved / rest, sinewShare, boneShare), 0b1111, 1) +
            Math.log((1 - meatShare - fatSaved / rest) / steps)
          );
        }),
      );
    const marginal = (meatShare: number): number =>
      composition(Float64Array.of(meatShare, fatSaved / rest, 0, 0), 0b0011, 1);
    const middle = meat / rest;
    for (const off of [-0.06, 0.06])
      expect(
        integral(middle + off) - integral(middle) - marginal(middle + off) + marginal(middle),
      ).toBeCloseTo(0, 0);
  });
});

describe('the spread of a new shop', () => {
  it('has the tails of a guess, which its own animals make normal', () => {
    expect(model.degrees).toBe(8);
    expect(model.damage).toMatchObject({ degrees: 4, none: probabilityOfNone(0, 0) });
    // Density of a t with 8 degrees at two standard deviations, times that of the rare wide animals.
    const steeper = animalLog(4, 3, 8) - animalLog(0, 3, 8);
    const normal = animalLog(4, 3, 1e6) - animalLog(0, 3, 1e6);
    expect(steeper).toBeLessThan(normal - 0.5);
    expect(animalLog(60, 3, 8)).toBeLessThan(animalLog(30, 3, 8));
    expect(normal).toBeCloseTo(
      Math.log(0.94 * Math.exp(-2) + (0.05 / 15.625) * Math.exp(-0.32) + (0.01 / 125) * Math.exp(-0.08)) -
        Math.log(0.94 + 0.05 / 15.625 + 0.01 / 125),
      4,
    );
  });
});
