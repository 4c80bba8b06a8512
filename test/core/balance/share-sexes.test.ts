import { describe, expect, it } from 'vitest';
import { addShares, kindKey, type KindSums, type PartShares } from '../../../src/core/balance/part-shares.ts';
import { shareModel } from '../../../src/core/balance/share-model.ts';
import { sharePrior } from '../../../src/core/balance/share-prior.ts';
import { shiftMean, poolSexes, sexShift } from '../../../src/core/balance/share-sexes.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import type { Sex } from '../../../src/core/species/species.ts';
import { profileOf } from '../../outside/results/profiles.ts';

const elk = profileOf('elk');
const [MEAT, BONE, DAMAGE] = [0, 3, 4] as const;
const shiftOf = (sex: Sex) => sexShift(elk, 'carcass', sex);

function herd(sex: Sex, count: number): PartShares[] {
  const chance = seededRandom(sex === 'male' ? 1 : 2);
  const meat = sex === 'male' ? 0.6 : 0.57;
  return Array.from({ length: count }, (_, i) => ({
    meat: meat + 0.02 * chance.normal(),
    ...(i % 3 > 0 && { bone: 0.21 + 0.01 * chance.normal() }),
    ...(i % 2 > 0 && { damage: i % 4 === 1 ? 0 : 0.06 }),
  }));
}

describe('the pooled parts of both sexes', () => {
  it('differ by the published take-home, and bone compensates part of it', () => {
    const [bull, cow] = [shiftOf('male'), shiftOf('female')];
    // 218 of 364 lb and 169 of 294: University of Wyoming AES B-594R, 2003, second-hand.
    expect((bull[MEAT] ?? 0) - (cow[MEAT] ?? 0)).toBeCloseTo(218 / 364 - 169 / 294, 2);
    expect(bull[BONE] ?? 0).toBeLessThan(0);
    expect([bull[DAMAGE], cow[DAMAGE]]).toEqual([0, 0]);
    expect(shiftOf('unknown')).toEqual([0, 0, 0, 0, 0]);
    const deer = profileOf('white-tail');
    expect(sexShift(deer, 'carcass', 'male')).toEqual([0, 0, 0, 0, 0]);
  });

  it('equal the sums of the shifted animals', () => {
    const sums: Record<string, KindSums> = {};
    const byHand: Record<string, KindSums> = {};
    for (const sex of ['male', 'female', 'unknown'] as const)
      for (const animal of herd(sex, 12)) {
        addShares(sums, kindKey('elk', 'carcass', sex), animal);
        const [meat = 0, , , bone = 0] = shiftOf(sex);
        const centred = { ...animal, meat: (animal.meat ?? 0) - meat };
        addShares(
          byHand,
          'all',
          'bone' in animal ? { ...centred, bone: (animal.bone ?? 0) - bone } : centred,
        );
      }
    const together = poolSexes(sums, elk, 'carcass');
    expect(Object.keys(together?.patterns ?? {}).sort()).toEqual(
      Object.keys(byHand.all?.patterns ?? {}).sort(),
    );
    for (const [pattern, { n, sums: wanted, products }] of Object.entries(byHand.all?.patterns ?? {})) {
      const got = together?.patterns[pattern];
      expect(got?.n).toBe(n);
      wanted.forEach((value, i) => expect(got?.sums[i]).toBeCloseTo(value, 9));
      products.forEach((value, i) => expect(got?.products[i]).toBeCloseTo(value, 9));
    }
    expect(together?.damage.zeros).toBe(byHand.all?.damage.zeros);
    expect(together?.damage.sum).toBeCloseTo(byHand.all?.damage.sum ?? NaN, 9);
  });

  it('compare a cow with cows in a shop that weighed bulls only', () => {
    const sums: Record<string, KindSums> = {};
    for (const animal of herd('male', 200)) addShares(sums, kindKey('elk', 'carcass', 'male'), animal);
    const both = shareModel(sharePrior(elk, 'carcass'), poolSexes(sums, elk, 'carcass'));
    const meat = (sex: Sex) => shiftMean(both, shiftOf(sex)).mean[MEAT] ?? 0;
    expect(meat('male')).toBeCloseTo(0.6, 2);
    expect(meat('male') - meat('female')).toBeCloseTo(218 / 364 - 169 / 294, 2);
    expect(meat('unknown')).toBeCloseTo((meat('male') + meat('female')) / 2, 3);
  });
});
