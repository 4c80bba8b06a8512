import { describe, expect, it } from 'vitest';
import { learnLoss } from '../../../src/core/loss/loss.ts';
import {
  learn,
  lessonsFrom,
  modelFrom,
  rangeOfShares,
  summarise,
  takeHomeRange,
} from '../../../src/core/yield/yield.ts';
import { KINDS } from '../../calibrate/loss-world.ts';
import { lessonsOfShop } from '../../calibrate/owners.ts';
import { drawOwner, openShop, profiles, weigh, WORLDS, type World } from '../../calibrate/world.ts';

const BELIEVED = WORLDS[0] as World;
const ELK = { species: 'elk', brought: 'skinned', sex: 'female' } as const;
const CODES = new Set(profiles.map(({ code }) => code));
const animals = (n: number, seed: number) => {
  const { next, chance } = openShop(BELIEVED, seed);
  return Array.from({ length: n }, () => weigh(next(), BELIEVED, chance));
};

describe('a shop without siblings', () => {
  it('learns as before there were any, to the last bit', () => {
    const model = learn(profiles, animals(30, 77));
    // Printed by the program as it was before shops taught each other.
    expect(takeHomeRange(model, ELK, 0.8)).toEqual({
      mean: 0.5834115920427208,
      low: 0.5269813598574926,
      high: 0.6390179354498473,
    });
    expect(rangeOfShares(model, ELK, 0.8).bone).toEqual({
      mean: 0.21426637139233318,
      low: 0.1739210828306467,
      high: 0.2560487052508497,
    });
    // Printed by the program when the spread of batches was first assumed to be 0.7.
    const lots = [0.61, 0.66, 0.64].map((out) => ({
      product: 'a',
      kind: 'sticks',
      inGrams: 1000,
      outGrams: 1000 * out,
    }));
    expect(learnLoss(lots, KINDS).forecast('b', 'jerky')).toMatchObject({
      low: 0.2805005597284641,
      middle: 0.4275699945441751,
      high: 0.5885052590318325,
    });
    expect(learnLoss(lots, KINDS).forecast('a', 'sticks')).toMatchObject({
      low: 0.5878251360533516,
      middle: 0.6384388706484885,
      high: 0.6881895611369455,
    });
  });

  it('is one whose siblings tell of nothing that it knows', () => {
    const sums = summarise(animals(30, 77));
    const unknown = [{ species: 'yak', brought: 'skinned', animals: 50, sexes: {}, ages: {}, damages: {}, splits: { takeHome: { n: 50, sum: 10, squares: 5 } } }] as const; // prettier-ignore
    const model = modelFrom(profiles, sums, [unknown, []]);
    expect(takeHomeRange(model, ELK, 0.8)).toEqual(takeHomeRange(modelFrom(profiles, sums), ELK, 0.8));
  });
});

describe('what a shop tells', () => {
  it('is of five animals or more, and adds up to them', () => {
    const seen = animals(120, 5);
    const lessons = lessonsFrom(summarise(seen), CODES);
    expect(lessons.length).toBeGreaterThan(3);
    for (const { species, brought, animals: n, splits, sexes } of lessons) {
      expect(n).toBe(
        seen.filter(({ group }) => group.species === species && group.brought === brought).length,
      );
      for (const { n: of } of Object.values(splits)) expect(of).toBeGreaterThanOrEqual(5);
      for (const share of Object.values(sexes)) expect(share * 10).toBeCloseTo(Math.round(share * 10), 9);
    }
    const kinds = Map.groupBy(seen, ({ group }) => `${group.species}/${group.brought}`);
    expect(lessons).toHaveLength([...kinds.values()].filter((of) => of.length >= 5).length);
  });

  it('leaves a species of the shop’s own out', () => {
    expect(
      lessonsFrom(summarise(animals(120, 5)), new Set(['elk'])).every(({ species }) => species === 'elk'),
    ).toBe(true);
  });
});

describe('a new shop among siblings', () => {
  it('starts where they are, and its own animals take over', () => {
    const owner = drawOwner(0.95, 3);
    const siblings = [1, 2, 3, 4].map((seed) =>
      lessonsOfShop(openShop(BELIEVED, seed, undefined, owner), 200),
    );
    const of = { ...ELK, species: owner.usual[0]?.code ?? '' };
    const far = { hangingGrams: 100_000, takeHomeGrams: 40_000, group: of };
    const after = (n: number, shops: typeof siblings) =>
      takeHomeRange(modelFrom(profiles, summarise(Array.from({ length: n }, () => far)), shops), of, 0.8)
        .mean;
    expect(Math.abs(after(0, siblings) - after(0, []))).toBeGreaterThan(0.005);
    // 60 animals that all took 40 % home leave nothing of what siblings said.
    expect(Math.abs(after(60, siblings) - 0.4)).toBeLessThan(0.02);
    expect(after(3, siblings)).toBeLessThan(after(0, siblings));
  });

  it('does not depend on the order of its siblings', () => {
    const owner = drawOwner(0.5, 4);
    const siblings = [1, 2, 3].map((seed) => lessonsOfShop(openShop(BELIEVED, seed, undefined, owner), 100));
    const of = (shops: typeof siblings) =>
      takeHomeRange(modelFrom(profiles, summarise(animals(3, 9)), shops), ELK, 0.8);
    expect(of(siblings.toReversed()).low).toBeCloseTo(of(siblings).low, 9);
  });
});
