import { determinant, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import {
  addShares,
  joinShares,
  withoutShares,
  type KindSums,
  type PartShares,
} from '../../../src/core/balance/part-shares.ts';
import { shareModel, type ShareModel } from '../../../src/core/balance/share-model.ts';
import { sharePrior } from '../../../src/core/balance/share-prior.ts';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';

const deer = SPECIES.find(({ code }) => code === 'white-tail');
if (!deer) throw new Error('no white-tail');
const prior = sharePrior(deer, 'carcass');
const KEYS = ['meat', 'fatSaved', 'sinew', 'bone', 'damage'] as const;

/** Deer of a shop whose cuts leave 55 % meat, 22 % bone, 11 % sinew, 8 % damage; what `keep` says is weighed. */
function herd(count: number, keep: (i: number) => readonly (typeof KEYS)[number][], seed = 3): PartShares[] {
  const chance = seededRandom(seed);
  return Array.from({ length: count }, (_, i) => {
    const damage = 0.04 + 0.03 * Math.abs(chance.normal());
    const bone = 0.22 + 0.015 * chance.normal();
    const sinew = 0.1 + 0.01 * chance.normal();
    const fatSaved = 0.01 + 0.002 * Math.abs(chance.normal());
    const meat = 1 - 0.04 - 0.008 * chance.normal() - damage - bone - sinew - fatSaved;
    const all = { meat, fatSaved, sinew, bone, damage };
    return Object.fromEntries(keep(i).map((key) => [key, all[key]]));
  });
}

function sumsOf(animals: readonly PartShares[]): KindSums {
  const sums: Record<string, KindSums> = {};
  for (const animal of animals) addShares(sums, 'deer', animal);
  return sums.deer as KindSums;
}

/** The log-density that the fit maximises, by plain loops over the animals: the oracle. */
function logPosterior(animals: readonly PartShares[], mean: readonly number[], covariance: Matrix): number {
  const within = Matrix.mul(prior.covariance, 0.75);
  const offset = mean.map((value, i) => value - (prior.mean[i] ?? 0));
  const precision = inverse(covariance);
  const trace = Matrix.mul(within, 6).mmul(precision).trace();
  let log =
    -0.5 * trace - 0.5 * 6 * Math.log(determinant(covariance)) - 0.5 * 3 * quadratic(precision, offset);
  for (const animal of animals) {
    const at = KEYS.flatMap((key, i) => (animal[key] === undefined ? [] : [i]));
    const chosen = covariance.selection(at, at);
    const off = at.map((i) => (animal[KEYS[i] ?? 'meat'] ?? 0) - (mean[i] ?? 0));
    log -= 0.5 * Math.log(determinant(chosen)) + 0.5 * quadratic(inverse(chosen), off);
  }
  return log;
}
function quadratic(matrix: Matrix, off: readonly number[]): number {
  return off.reduce((sum, a, i) => sum + off.reduce((inner, b, j) => inner + a * b * matrix.get(i, j), 0), 0);
}
/** The covariance of animals, without the doubt about the mean that the prediction adds. */
function fitted({ mean, covariance, animals }: ShareModel): [readonly number[], Matrix] {
  return [mean, Matrix.div(covariance, 1 + 1 / (3 + animals))];
}

describe('the joint model of part shares', () => {
  it('is the published figures without weighed animals', () => {
    const model = shareModel(prior);
    expect(model.mean).toEqual(prior.mean);
    expect(Matrix.sub(model.covariance, prior.covariance).abs().max()).toBeLessThan(1e-12);
  });

  it.each([
    ['all parts', () => KEYS],
    ['no damage tote in two of three', (i: number) => (i % 3 ? KEYS.slice(0, 4) : KEYS)],
    [
      'no bone in half, no damage in the other half',
      (i: number) => (i % 2 ? KEYS.slice(0, 4) : ['meat', 'sinew', 'damage']),
    ],
  ] as [string, (i: number) => (typeof KEYS)[number][]][])(
    'has found the posterior mode with %s weighed: any small step away lowers the density',
    (_, keep) => {
      const animals = herd(25, keep);
      const [mean, covariance] = fitted(shareModel(prior, sumsOf(animals)));
      const best = logPosterior(animals, mean, covariance);
      for (let i = 0; i < 5; i++)
        for (const step of [-0.004, 0.004]) {
          const moved = mean.map((value, j) => value + (i === j ? step : 0));
          expect(logPosterior(animals, moved, covariance)).toBeLessThan(best);
        }
      for (const factor of [0.85, 1.18])
        expect(logPosterior(animals, mean, Matrix.mul(covariance, factor))).toBeLessThan(best);
    },
  );

  it('does not treat unweighed damage as none', () => {
    const model = shareModel(prior, sumsOf(herd(30, () => KEYS.slice(0, 4))));
    const damage = KEYS.indexOf('damage');
    // What the weighed parts leave (12 %) is shared out between damage and shrink as the published figures do.
    expect(model.mean[damage]).toBeGreaterThan(0.04);
    expect(Math.sqrt(model.covariance.get(damage, damage))).toBeGreaterThan(0.015);
  });

  it('adds, merges and removes animals exactly', () => {
    const [first, ...others] = herd(6, (i) => (i % 2 ? KEYS : KEYS.slice(0, 4)));
    const all = sumsOf([first ?? {}, ...others]);
    const left = withoutShares(all, first ?? {});
    const apart = sumsOf(others);
    for (const [pattern, { n, sums, products }] of Object.entries(apart.patterns)) {
      expect(left.patterns[pattern]?.n).toBe(n);
      sums.forEach((value, i) => expect(left.patterns[pattern]?.sums[i]).toBeCloseTo(value, 12));
      products.forEach((value, i) => expect(left.patterns[pattern]?.products[i]).toBeCloseTo(value, 12));
    }
    const joined = joinShares({ a: sumsOf([first ?? {}]) }, { a: apart });
    expect(joined['a']?.patterns['11110']?.n).toBe(all.patterns['11110']?.n);
  });
});
