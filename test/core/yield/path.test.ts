import { describe, expect, it } from 'vitest';
import speciesJson from '../../../resources/species.json' with { type: 'json' };
import { seededRandom } from '../../../src/core/stats/random.ts';
import type { SpeciesProfile } from '../../../src/core/species/species.ts';
import {
  predictionPath,
  summarise,
  learn,
  predict,
  takeHomeRange,
  mergeSums,
  type YieldObservation,
} from '../../../src/core/yield/yield.ts';

const PROFILES = Object.freeze(speciesJson as unknown as SpeciesProfile[]);
const ELK = { species: 'elk', brought: 'skinned' } as const;

function herd(count: number, seed: number): readonly YieldObservation[] {
  const { normal, uniform } = seededRandom(seed);
  return Object.freeze(
    Array.from({ length: count }, () => {
      const hangingGrams = 100_000 * Math.exp(0.2 * normal());
      const species = uniform() < 0.5 ? 'elk' : 'moose';
      const takeHomeGrams = hangingGrams * Math.min(0.8, Math.max(0.3, 0.57 + 0.05 * normal()));
      return Object.freeze({ hangingGrams, takeHomeGrams, group: { species, brought: 'skinned' as const } });
    }),
  );
}

describe('the predicted take-home of one more animal', () => {
  it.each([0, 5, 60])('matches simulation after %i animals', (count) => {
    const model = learn(PROFILES, herd(count, 3));
    const exact = takeHomeRange(model, ELK, 0.8);
    const drawn = predict(model, { hangingGrams: 1, group: ELK, level: 0.8, seed: 9, draws: 100_000 });
    for (const end of ['low', 'mean', 'high'] as const)
      expect(Math.abs(exact[end] - drawn.parts.takeHome[end])).toBeLessThan(0.0015);
  });

  it('widens with the level and contains its mean', () => {
    const model = learn(PROFILES, herd(20, 4));
    const [half, most] = [takeHomeRange(model, ELK, 0.5), takeHomeRange(model, ELK, 0.95)];
    expect(most.low).toBeLessThan(half.low);
    expect(most.high).toBeGreaterThan(half.high);
    expect(most.mean).toBe(half.mean);
    expect(half.low).toBeLessThan(half.mean);
    expect(half.mean).toBeLessThan(half.high);
  });

  it('refuses an invalid level', () => {
    expect(() => takeHomeRange(learn(PROFILES, []), ELK, 1)).toThrow('yield.level');
  });
});

describe('the path of a prediction', () => {
  const earlier = summarise(herd(30, 5));
  const season = herd(40, 6);

  it('equals at each stop a fit to all animals so far', () => {
    const stops = [0, 1, 7, 40];
    const path = predictionPath(PROFILES, earlier, season, { groups: [ELK], stops, level: 0.8 });
    expect(path).toHaveLength(4);
    for (const [i, stop] of stops.entries()) {
      const model = learn(PROFILES, [...herd(30, 5), ...season.slice(0, stop)]);
      for (const end of ['low', 'mean', 'high'] as const)
        expect(path[i]?.[0]?.[end]).toBeCloseTo(takeHomeRange(model, ELK, 0.8)[end], 9);
    }
  });

  it('does not modify its initial sums', () => {
    const copy = structuredClone(earlier);
    predictionPath(PROFILES, earlier, season, { groups: [ELK], stops: [40], level: 0.8 });
    expect(earlier).toEqual(copy);
  });
});

describe('merged sums of two sets of animals', () => {
  it('equal the sums over all of them, in any order', () => {
    const [a, b] = [herd(12, 7), herd(9, 8)];
    const all = summarise([...a, ...b]);
    for (const joined of [mergeSums(summarise(a), summarise(b)), mergeSums(summarise(b), summarise(a))])
      for (const [key, { splits }] of Object.entries(all)) {
        expect(joined[key]?.splits.takeHome?.n).toBe(splits.takeHome?.n);
        expect(joined[key]?.splits.takeHome?.sum).toBeCloseTo(splits.takeHome?.sum ?? NaN, 9);
        expect(joined[key]?.splits.takeHome?.squares).toBeCloseTo(splits.takeHome?.squares ?? NaN, 9);
      }
    expect(mergeSums({}, all)).toEqual(all);
  });
});
