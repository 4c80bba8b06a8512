import { describe, expect, it } from 'vitest';
import { closedFit } from '../../../src/core/balance/closed-fit.ts';
import type { PartsWeighed } from '../../../src/core/balance/part-shares.ts';
import { shareModel } from '../../../src/core/balance/share-model.ts';
import { sharePrior } from '../../../src/core/balance/share-prior.ts';
import { logSumExp } from '../../../src/core/stats/log-sum-exp.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';

const deer = SPECIES.find(({ code }) => code === 'white-tail');
if (!deer) throw new Error('no white-tail');
const prior = sharePrior(deer, 'carcass');
const model = shareModel(prior);
const fit = closedFit(model);
const [meat = 0, fatSaved = 0, sinew = 0, bone = 0, damage = 0] = model.mean;
const shrink = 1 - meat - fatSaved - sinew - bone - damage;
const part = (share: number) => ({ share, sd: 0, open: false });
/** All that is on the table grows or shrinks alike, until so much is lost. */
function losing(share: number): PartsWeighed {
  const by = (1 - damage - share) / (1 - damage - shrink);
  return {
    meat: part(meat * by),
    fatSaved: part(fatSaved * by),
    sinew: part(sinew * by),
    bone: part(bone * by),
    damage: part(damage),
  };
}

describe('the parts of a finished animal', () => {
  it('use the published spread of the loss, not the remainder of the other splits', () => {
    // 0.11 ± 0.05 of the loss of 0.45, and two scales.
    const { mean, sd } = deer.loss.shrink;
    const published = (sd / mean) * shrink;
    const spread = Math.sqrt(prior.covariance.sum());
    expect(spread).toBeGreaterThan(published);
    expect(spread).toBeLessThan(1.25 * published);
  });

  it('may lose much more than usual, but hardly less than nothing', () => {
    expect(fit(losing(shrink))).toBeGreaterThan(-0.5);
    expect(fit(losing(2 * shrink))).toBeGreaterThan(-3);
    expect(fit(losing(-0.002))).toBeLessThan(fit(losing(2 * shrink + 0.002)) - 1);
    expect(fit(losing(-0.05))).toBeLessThan(-15);
  });

  it('may divide unusually, but must still add up', () => {
    // Five prior standard deviations of the bone, taken from the meat: lean, or boned badly.
    const off = 5 * Math.sqrt(prior.covariance.get(3, 3));
    const odd = fit({ ...losing(shrink), meat: part(meat - off), bone: part(bone + off) });
    expect(odd).toBeGreaterThan(-9);
    // As far off in what is lost.
    expect(fit(losing(shrink - 5 * Math.sqrt(prior.covariance.sum())))).toBeLessThan(odd - 5);
  });

  it('integrate over an unweighed part', () => {
    const without = ({ meat, fatSaved, sinew, damage }: PartsWeighed): PartsWeighed =>
      ({ meat, fatSaved, sinew, damage }) as PartsWeighed;
    const integral = (parts: PartsWeighed): number =>
      logSumExp(Array.from({ length: 400 }, (_, i) => fit({ ...parts, bone: part((i + 0.5) / 1000) })));
    const base = losing(shrink);
    const sets = [base, { ...base, sinew: part(sinew + 0.05) }, { ...base, meat: part(meat - 0.08) }];
    const constant = fit(without(base)) - integral(base);
    for (const set of sets) expect(fit(without(set)) - integral(set) - constant).toBeCloseTo(0, 0);
  });

  it('integrate over unweighed damage, none or some', () => {
    const without = (lost: number): number => {
      const { meat, fatSaved, sinew, bone } = losing(lost);
      return fit({ meat, fatSaved, sinew, bone } as PartsWeighed);
    };
    // Everything that is usually damaged is on the table, or half of it, or none.
    for (const more of [0, 0.5, 1]) expect(without(shrink - more * damage)).toBeGreaterThan(-4);
    expect(without(shrink - damage - 0.08)).toBeLessThan(-12);
  });
});
