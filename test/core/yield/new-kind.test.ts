/**
 * A kind that is new to a busy shop, its profile wrong. `npm run calibrate` prints the whole table. Before priors had
 * heavy tails the 80 % range held 56 % after five animals of a species 3 standard deviations off, and 10 % after five
 * first quarters.
 */
import { describe, expect, it } from 'vitest';
import { LEVELS } from '../../calibrate/coverage.ts';
import { newKindHeld } from '../../calibrate/new-kind.ts';

const EIGHT_IN_TEN = LEVELS.indexOf(0.8);
/** The standard error of a share of 80 % is 2.8 points. */
const SHOPS = 200;

describe('an animal of a kind that is new to a busy shop', () => {
  it.each(['species', 'brought'] as const)('is covered by its range although the profile is far off: %s', (by) => {
    const [one, five] = newKindHeld({ by, sds: 3, spread: 1 }, [1, 5], SHOPS, 41);
    expect(five?.model.inside[EIGHT_IN_TEN]).toBeGreaterThan(0.75);
    expect(five?.model.inside[EIGHT_IN_TEN]).toBeLessThan(0.86);
    // A normal prior holds on to its first guess.
    expect(five?.normalPrior.inside[EIGHT_IN_TEN]).toBeLessThan(0.7);
    // The very first animal widens the range.
    expect(one?.model.width[EIGHT_IN_TEN]).toBeGreaterThan(1.2 * (five?.model.width[EIGHT_IN_TEN] ?? 0));
  }, 300_000); // prettier-ignore

  it('has a range no wider than a normal prior gives, if the profile is right', () => {
    const held = newKindHeld({ by: 'species', sds: null, spread: 1 }, [1, 3, 5, 10], SHOPS, 42);
    for (const { model, normalPrior } of held)
      expect(model.width[EIGHT_IN_TEN]).toBeLessThan(1.01 * (normalPrior.width[EIGHT_IN_TEN] ?? 0));
    for (const { model } of held) {
      expect(model.inside[EIGHT_IN_TEN]).toBeGreaterThan(0.75);
      expect(model.inside[EIGHT_IN_TEN]).toBeLessThan(0.85);
    }
  }, 300_000);
});
