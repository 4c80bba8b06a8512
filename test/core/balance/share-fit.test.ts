import { describe, expect, it } from 'vitest';
import type { PartsWeighed } from '../../../src/core/balance/part-shares.ts';
import { shareFit } from '../../../src/core/balance/share-fit.ts';
import { shareModel } from '../../../src/core/balance/share-model.ts';
import { sharePrior } from '../../../src/core/balance/share-prior.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';

const elk = SPECIES.find(({ code }) => code === 'elk');
if (!elk) throw new Error('no elk');
const model = shareModel(sharePrior(elk, 'carcass'));
const fit = shareFit(model);
const [meat = 0, fatSaved = 0, sinew = 0, bone = 0, damage = 0] = model.mean;
const part = (share: number, open = false) => ({ share, sd: 0.002, open });
const usual: PartsWeighed = {
  meat: part(meat),
  fatSaved: part(fatSaved),
  sinew: part(sinew),
  bone: part(bone),
  damage: part(damage),
};

describe('the fit of part shares', () => {
  it('is highest at the usual and falls with every step away', () => {
    let last = fit(usual);
    expect(last).toBeGreaterThan(-1);
    for (const off of [0.05, 0.1, 0.15, 0.2]) {
      const now = fit({ ...usual, bone: part(bone + off) });
      expect(now).toBeLessThan(last);
      last = now;
    }
  });

  it('ignores unweighed parts and parts still to come', () => {
    expect(fit({})).toBeGreaterThan(-0.01);
    expect(fit({ meat: part(0.1, true), bone: part(0.02, true) })).toBeGreaterThan(-0.2);
    // The same weights of an animal that is cut are far too light.
    expect(fit({ meat: part(0.1), bone: part(0.02) })).toBeLessThan(-10);
  });

  it('detects parts that outweigh their animal, also while totes may follow', () => {
    const open = Object.fromEntries(
      Object.entries(usual).map(([name, { share }]) => [name, part(share * 1.2, true)]),
    );
    expect(fit(open)).toBeLessThan(-100);
  });

  it('explains a loss by unweighed damage, up to its usual amount', () => {
    const less = (share: number): PartsWeighed => ({
      meat: part(meat - share),
      fatSaved: part(fatSaved),
      sinew: part(sinew),
      bone: part(bone),
    });
    const none = { share: 0, sd: 0, open: false };
    expect(fit(less(0.06))).toBeGreaterThan(fit({ ...less(0.06), damage: none }) - 1);
    expect(fit(less(0.3))).toBeLessThan(-4);
  });
});
