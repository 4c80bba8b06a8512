import { describe, expect, it } from 'vitest';
import speciesJson from '../../../resources/species.json' with { type: 'json' };
import { seeded } from '../../../src/core/stats/random.ts';
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
  const { normal, uniform } = seeded(seed);
  return Object.freeze(
    Array.from({ length: count }, () => {
      const hangingGrams = 100_000 * Math.exp(0.2 * normal());
      const species = uniform() < 0.5 ? 'elk' : 'moose';
      const takeHomeGrams = hangingGrams * Math.min(0.8, Math.max(0.3, 0.57 + 0.05 * normal()));
      return Object.freeze({ hangingGrams, takeHomeGrams, group: { species, brought: 'skinned' as const } });
    }),
  );
}

describe('the take-home expected of one more animal', () => {
  it.each([0, 5, 60])('is what drawing it many times comes to, after %i animals', (count) => {
    const model = learn(PROFILES, herd(count, 3));
    const exact = takeHomeRange(model, ELK, 0.8);
    const drawn = predict(model, { hangingGrams: 1, group: ELK, level: 0.8, seed: 9, draws: 100_000 });
    for (const end of ['low', 'mean', 'high'] as const)
      expect(Math.abs(exact[end] - drawn.parts.takeHome[end])).toBeLessThan(0.0015);
  });

  it('widens with the level and holds its mean', () => {
    const model = learn(PROFILES, herd(20, 4));
    const [half, most] = [takeHomeRange(model, ELK, 0.5), takeHomeRange(model, ELK, 0.95)];
    expect(most.low).toBeLessThan(half.low);
    expect(most.high).toBeGreaterThan(half.high);
    expect(most.mean).toBe(half.mean);
    expect(half.low).toBeLessThan(half.mean);
    expect(half.mean).toBeLessThan(half.high);
  });

  it('refuses a level that is none', () => {
    expect(() => takeHomeRange(learn(PROFILES, []), ELK, 1)).toThrow('yield.level');
  });
});

describe('how a belief moved', () => {
  const earlier = summarise(herd(30, 5));
  const season = herd(40, 6);

  it('is at each stop what learning all animals so far from the start says', () => {
    const stops = [0, 1, 7, 40];
    const path = predictionPath(PROFILES, earlier, season, { groups: [ELK], stops, level: 0.8 });
    expect(path).toHaveLength(4);
    for (const [i, stop] of stops.entries()) {
      const model = learn(PROFILES, [...herd(30, 5), ...season.slice(0, stop)]);
      for (const end of ['low', 'mean', 'high'] as const)
        expect(path[i]?.[0]?.[end]).toBeCloseTo(takeHomeRange(model, ELK, 0.8)[end], 9);
    }
  });

  it('leaves the sums it began with as they were', () => {
    const copy = structuredClone(earlier);
    predictionPath(PROFILES, earlier, season, { groups: [ELK], stops: [40], level: 0.8 });
    expect(earlier).toEqual(copy);
  });
});

describe('sums of two lots of animals together', () => {
  it('are the sums of all of them, in whatever order', () => {
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
