import { describe, expect, it } from 'vitest';
import { sharePrior } from '../../../src/core/balance/share-prior.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { correlationsWithDamage, scoreOf } from '../../../src/core/yield/latent.ts';
import {
  momentsAmongDamaged,
  fitProbabilityOfNone,
  PRIOR_PROBABILITY_OF_NONE,
} from '../../../src/core/yield/zero-damage.ts';
import {
  summarise,
  learn,
  rangeOfShares,
  type Group,
  type YieldObservation,
} from '../../../src/core/yield/yield.ts';
import { logit, inverseLogit } from '../../../src/core/yield/tree.ts';
import { profiles } from '../../calibrate/world.ts';
import { totesHeld } from '../../calibrate/totes.ts';

const elk: Group = { species: 'elk', brought: 'skinned' };

/** An elk of 100 kg of which 8 kg are left for damage and shrink. */
function elkWith(damageGrams: number, group: Group = elk): YieldObservation {
  const parts = { bone: 22_000, sinew: 10_000, damage: damageGrams };
  return { hangingGrams: 100_000, takeHomeGrams: 60_000, parts, group };
}

describe('the probability of no damage', () => {
  const chance = (animals: readonly YieldObservation[], group: Group = elk): number =>
    fitProbabilityOfNone(Object.values(summarise(animals)))(group);

  it('matches the published figures before any animal', () => {
    expect(chance([])).toBe(PRIOR_PROBABILITY_OF_NONE);
  });

  it("approaches the shop's own weights, and counts only animals with known damage", () => {
    const third = Array.from({ length: 300 }, (_, i) => elkWith(i % 3 === 0 ? 0 : 4000));
    expect(chance(third)).toBeCloseTo(1 / 3, 2);
    const { hangingGrams, takeHomeGrams, group } = elkWith(0);
    expect(chance([...third, { hangingGrams, takeHomeGrams, group }])).toBe(chance(third));
  });

  it('is lower for an animal with heavy stated damage than for a clean one', () => {
    const clean = { ...elk, damage: 'none' } as const;
    const heavy = { ...elk, damage: 'heavy' } as const;
    const animals = Array.from({ length: 40 }, (_, i) => elkWith(i % 2 ? 0 : 5000, i % 2 ? clean : heavy));
    expect(chance(animals, clean)).toBeGreaterThan(0.9);
    expect(chance(animals, heavy)).toBeLessThan(0.1);
  });

  it('keeps published mean and spread over all animals', () => {
    for (const published of [
      { mean: 0.62, sd: 0.31 },
      { mean: 0.33, sd: 0.3 },
    ]) {
      const { mean, sd } = momentsAmongDamaged(published);
      const some = 1 - PRIOR_PROBABILITY_OF_NONE;
      expect(some * mean).toBeCloseTo(published.mean, 9);
      expect(some * (sd * sd + mean * mean) - published.mean ** 2).toBeCloseTo(published.sd ** 2, 9);
    }
  });

  it('puts the lower end of damage at exactly 0 where more than a tenth have none', () => {
    const animals = Array.from({ length: 60 }, (_, i) => elkWith(i % 3 === 0 ? 0 : 3000 + 50 * i));
    const { damage } = rangeOfShares(learn(profiles, animals), elk, 0.8);
    expect(damage.low).toBe(0);
    expect(damage.high).toBeGreaterThan(0.04);
  });

  it('does not affect the balance, whose model has no point mass at zero', () => {
    // As drawn from a single logit-normal of damage: white-tailed deer, take-home less fat, fat, sinew, bone, damage.
    const whiteTail = profiles.find(({ code }) => code === 'white-tail');
    const mean = whiteTail && sharePrior(whiteTail, 'carcass').mean;
    [0.5435798862902286, 0.009071429783234934, 0.08952777118474982, 0.2289502277387301, 0.08069289657354992]
      .forEach((share, i) => expect(mean?.[i]).toBeCloseTo(share, 12)); // prettier-ignore
  });
});

describe('the damage score', () => {
  it.each([0.01, 0.125, 0.5, 0.9])('has mean 0 and variance 1 where a share of %f has none', (chance) => {
    const { none, some } = scoreOf(chance);
    const mean = chance * none.mean + (1 - chance) * some.mean;
    const square = chance * (none.mean ** 2 + none.sd ** 2) + (1 - chance) * (some.mean ** 2 + some.sd ** 2);
    expect(mean).toBeCloseTo(0, 9);
    expect(square).toBeCloseTo(1, 9);
  });

  /** Animals whose take-home leans on the score by `correlation`; a third have no damage. */
  function drawn(count: number, correlation: number): YieldObservation[] {
    const { normal, uniform } = seededRandom(4);
    const { none, some } = scoreOf(1 / 3);
    return Array.from({ length: count }, () => {
      const clean = uniform() < 1 / 3;
      const damage = normal();
      const score = clean ? none.mean + none.sd * normal() : some.mean + some.sd * damage;
      const z = correlation * score + Math.sqrt(1 - correlation ** 2) * normal();
      const takeHome = 100_000 * inverseLogit(0.36 + 0.2 * z);
      const left = 100_000 - takeHome;
      const parts = {
        bone: 0.55 * left,
        sinew: 0.1 * left,
        damage: clean ? 0 : 0.35 * left * inverseLogit(damage),
      };
      return { hangingGrams: 100_000, takeHomeGrams: takeHome, parts, group: elk };
    });
  }
  const learned = (animals: readonly YieldObservation[]): number =>
    correlationsWithDamage(
      Object.values(summarise(animals)),
      () => 1 / 3,
      (_, split) => (split === 'takeHome' ? { location: 0.36, scale: 0.2 } : { location: 0, scale: 1 }),
    ).takeHome;

  it.each([-0.8, -0.3, 0, 0.5])('recovers a correlation of %f', (correlation) => {
    expect(Math.abs(learned(drawn(4000, correlation)) - correlation)).toBeLessThan(0.05);
  });

  it('is uncorrelated with the other splits before any animal, and never fully correlated', () => {
    expect(Math.abs(learned([]))).toBe(0);
    const correlation = learned(drawn(5, -0.99));
    expect(Math.abs(correlation)).toBeLessThan(1);
  });

  it('lowers the take-home of damaged animals in simulation too', () => {
    const leaning = rangeOfShares(learn(profiles, drawn(200, -0.9)), elk, 0.8);
    const apart = rangeOfShares(learn(profiles, drawn(200, 0)), elk, 0.8);
    // What is lost and how much of it is damage rise together: the upper end of the damage lies higher.
    expect(leaning.damage.high).toBeGreaterThan(apart.damage.high * 1.03);
    expect(logit(leaning.takeHome.mean)).toBeCloseTo(logit(apart.takeHome.mean), 1);
  });
});

it('covers damage and take-home in shops where a third of the animals have no damage', () => {
  const { inside } = totesHeld(0.2, 20, 300);
  // Nothing lies below a range that begins at 0, so an honest one holds up to 90 %; two standard errors are 4.6 points.
  for (const part of ['damage', 'takeHome'] as const) {
    expect(inside[part][1]).toBeGreaterThan(0.8 - 0.046);
    expect(inside[part][1]).toBeLessThan(0.9 + 0.03);
  }
}, 120_000);
