import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import species from '../../../resources/species.json' with { type: 'json' };
import type { SpeciesProfile } from '../../../src/core/species/species.ts';
import {
  summarise,
  learn,
  meanOf,
  modelFrom,
  addObservation,
  PARTS,
  predict,
  rangeOfShares,
  type Group,
  type YieldObservation,
} from '../../../src/core/yield/yield.ts';
import { runs } from '../../runs.ts';

const profiles = species as SpeciesProfile[];
const elk = profiles.find(({ code }) => code === 'elk') as SpeciesProfile;
const CASES = { numRuns: runs(1000) };
/** Enough for relations that hold for every draw. */
const draws = 100;
const LEAVES = ['wholeCuts', 'trim', 'fatSaved', 'bone', 'sinew', 'damage', 'shrink'] as const;

const group: fc.Arbitrary<Group> = fc.record({
  species: fc.constantFrom(...profiles.map(({ code }) => code)),
  brought: fc.constantFrom('whole', 'skinned', 'quarters', 'primals', 'boned'),
  sex: fc.constantFrom('male', 'female', 'unknown'),
  age: fc.constantFrom('young', 'yearling', 'adult', 'unknown'),
  damage: fc.constantFrom('none', 'some', 'heavy', 'unknown'),
});
const share = fc.double({ min: 0, max: 1, noNaN: true });
/** An animal weighed as far as it happened; shares of exactly 0 and 1 come up. */
const observation: fc.Arbitrary<YieldObservation> = fc
  .record({
    group,
    hangingGrams: fc.double({ min: 200, max: 500_000, noNaN: true }),
    shares: fc.tuple(share, share, share, share, share, share),
    weighed: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ group: kind, hangingGrams, shares: [t, f, w, b, s, d], weighed }) => {
    const takeHomeGrams = hangingGrams * t;
    const fatSaved = takeHomeGrams * f;
    const wholeCuts = (takeHomeGrams - fatSaved) * w;
    const trim = takeHomeGrams - fatSaved - wholeCuts;
    const loss = hangingGrams - takeHomeGrams;
    const bone = kind.brought === 'boned' ? 0 : loss * b;
    const sinew = (loss - bone) * s;
    const damage = (loss - bone - sinew) * d;
    const parts = [{}, { bone }, { bone, sinew, damage }, { wholeCuts, trim, fatSaved, bone, sinew, damage }];
    return Object.freeze({
      group: Object.freeze(kind),
      hangingGrams,
      ...(weighed > 0 && { takeHomeGrams }),
      parts: Object.freeze(parts[weighed] ?? {}),
    });
  });
const animals = fc.array(observation, { maxLength: 12 });
const skinnedElk: Group = { species: 'elk', brought: 'skinned' };

/** `n` elk that gave `share` of their hanging weight, give or take one point. */
const someElk = (n: number, taken: number, kind: Group = skinnedElk): YieldObservation[] =>
  Array.from({ length: n }, (_, i) => ({
    hangingGrams: 100_000,
    takeHomeGrams: 100_000 * (taken + (i % 2 === 0 ? 0.01 : -0.01)),
    group: kind,
  }));

describe('predict', () => {
  it('gives the published share before anything is weighed', () => {
    const { parts, animals: own } = predict(learn([elk], []), { hangingGrams: 150_000, level: 0.8, seed: 1 });
    expect(parts.takeHome.mean / 150_000).toBeCloseTo(elk.takeHome.mean, 2);
    expect(own).toBe(0);
  });

  it('is additive, nested and scales', () => {
    fc.assert(
      fc.property(
        animals,
        group,
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.integer(),
        (seen, kind, by, seed) => {
          const model = learn(profiles, seen);
          const at = (level: number, hangingGrams: number) =>
            predict(model, { hangingGrams, level, seed, group: kind, draws });
          const [half, most, nearly] = [at(0.5, 50_000), at(0.8, 50_000), at(0.95, 50_000)];
          const sum = LEAVES.reduce((total, part) => total + most.parts[part].mean, 0);
          expect(Math.abs(sum - 50_000)).toBeLessThan(50_000 * 1e-9);
          const { meat, takeHome, loss } = most.parts;
          expect(Math.abs(takeHome.mean + loss.mean - 50_000)).toBeLessThan(50_000 * 1e-9);
          expect(Math.abs(meat.mean + most.parts.fatSaved.mean - takeHome.mean)).toBeLessThan(50_000 * 1e-9);
          const scaled = at(0.8, 50_000 * by);
          for (const part of PARTS) {
            const [inner, middle, outer] = [half.parts[part], most.parts[part], nearly.parts[part]];
            expect(outer.low).toBeLessThanOrEqual(middle.low);
            expect(middle.low).toBeLessThanOrEqual(inner.low);
            expect(inner.low).toBeLessThanOrEqual(inner.high);
            expect(inner.high).toBeLessThanOrEqual(middle.high);
            expect(middle.high).toBeLessThanOrEqual(outer.high);
            expect(outer.low).toBeGreaterThanOrEqual(0);
            expect(outer.high).toBeLessThanOrEqual(50_000);
            for (const end of ['mean', 'low', 'high'] as const)
              expect(Math.abs(scaled.parts[part][end] - by * middle[end])).toBeLessThan(1e-9 * 50_000 * by);
          }
        },
      ),
      CASES,
    );
  }, 240_000);

  it('is deterministic per seed and hardly differs between seeds', () => {
    const model = learn(profiles, []);
    const ask = (seed: number) => predict(model, { hangingGrams: 1, level: 0.8, seed, group: skinnedElk });
    expect(ask(4)).toEqual(ask(4));
    expect(ask(5)).not.toEqual(ask(4));
    expect(ask(5).parts.takeHome.low).toBeCloseTo(ask(4).parts.takeHome.low, 1);
  });

  it('has no bone in field-boned meat and keeps nearly all of it', () => {
    const { parts } = predict(learn(profiles, []), {
      hangingGrams: 10_000, level: 0.8, seed: 2, group: { species: 'elk', brought: 'boned' },
    }); // prettier-ignore
    expect(parts.bone).toEqual({ mean: 0, low: 0, high: 0 });
    expect(parts.takeHome.mean).toBeGreaterThan(9000);
  });

  it("follows the cutting order's share of whole cuts", () => {
    const model = learn(profiles, []);
    const ask = (cutsShare?: number) =>
      predict(model, { hangingGrams: 1, level: 0.8, seed: 1, group: skinnedElk, cutsShare }).parts;
    expect(ask(0).wholeCuts.high).toBe(0);
    expect(ask(1).trim.high).toBeCloseTo(0, 12);
    expect(ask(0.25).wholeCuts.mean).toBeCloseTo(0.25 * ask().meat.mean, 12);
    expect(ask(0.25).takeHome).toEqual(ask().takeHome);
  });

  it('widens with an estimated hanging weight', () => {
    const model = learn(profiles, []);
    const ask = (hangingLogSd: number) =>
      predict(model, { hangingGrams: 1, hangingLogSd, level: 0.8, seed: 1, group: skinnedElk });
    const [weighed, guessed] = [ask(0), ask(0.08)];
    const width = ({ low, high }: { low: number; high: number }) => high - low;
    expect(width(weighed.hanging)).toBe(0);
    // 8 in 10 of a normal lie within 1.2816 deviations: exp(0.1025) - exp(-0.1025), about 0.205.
    expect(width(guessed.hanging)).toBeGreaterThan(0.19);
    expect(width(guessed.hanging)).toBeLessThan(0.22);
    expect(width(guessed.parts.takeHome)).toBeGreaterThan(width(weighed.parts.takeHome));
    expect(guessed.hanging.mean).toBeCloseTo(1, 2);
  });

  it('throws a typed error for wrong input', () => {
    const model = learn(profiles, []);
    const right = { hangingGrams: 1000, level: 0.8, seed: 1, group: skinnedElk };
    const wrong: [object, string][] = [
      [{ hangingGrams: 0 }, 'yield.weight'],
      [{ hangingGrams: Number.NaN }, 'yield.weight'],
      [{ hangingGrams: Infinity }, 'yield.weight'],
      [{ level: 0 }, 'yield.level'],
      [{ level: 1 }, 'yield.level'],
      [{ level: Number.NaN }, 'yield.level'],
      [{ seed: 0.5 }, 'random.seed'],
      [{ draws: 99 }, 'yield.draws'],
      [{ cutsShare: 1.1 }, 'yield.share'],
      [{ hangingLogSd: -0.1 }, 'yield.spread'],
      [{ group: undefined }, 'yield.species-needed'],
      [{ group: { ...skinnedElk, species: 'unicorn' } }, 'yield.species-unknown'],
      [{ group: { ...skinnedElk, brought: 'alive' } }, 'yield.brought'],
      [{ group: { ...skinnedElk, sex: 'both' } }, 'yield.group'],
    ];
    for (const [change, code] of wrong)
      expect(() => predict(model, { ...right, ...change }), code).toThrow(expect.objectContaining({ code }));
  });
});

describe('learn', () => {
  it('does not depend on the order of the animals, nor on learning them one by one', () => {
    fc.assert(
      fc.property(animals, fc.integer({ min: 1, max: 11 }), group, (seen, by, kind) => {
        const turned = [...seen.slice(by), ...seen.slice(0, by)].reverse();
        const one = learn(profiles, seen);
        const other = learn(profiles, turned);
        const oneByOne = modelFrom(profiles, seen.reduce(addObservation, summarise([])));
        for (const split of ['takeHome', 'bone', 'damage'] as const) {
          const mean = meanOf(one, kind, split);
          for (const model of [other, oneByOne]) {
            const again = meanOf(model, kind, split);
            expect(Math.abs(again.location - mean.location)).toBeLessThan(1e-9);
            expect(Math.abs(again.standardError - mean.standardError)).toBeLessThan(1e-9);
          }
        }
      }),
      CASES,
    );
  }, 240_000);

  it('is more certain after an animal that confirms the profile, and less after one that contradicts it', () => {
    const known = (seen: YieldObservation[]): number => {
      const mean = meanOf(learn(profiles, seen), skinnedElk, 'takeHome');
      expect(mean.standardError).toBeCloseTo(mean.sd / Math.sqrt(mean.effectiveSampleSize), 9);
      return mean.effectiveSampleSize;
    };
    const worth = [0, 1, 2, 5, 20, 100].map((n) => known(someElk(n, 0.59)));
    for (let i = 1; i < worth.length; i++) expect(worth[i]).toBeGreaterThan(worth[i - 1] as number);
    expect(known(someElk(1, 0.38))).toBeLessThan(worth[0] as number);
  });

  it("moves from the published share to the shop's own as elk are added", () => {
    const shareAfter = (n: number): number =>
      rangeOfShares(learn(profiles, someElk(n, 0.5)), skinnedElk, 0.8).takeHome.mean;
    const shares = [0, 4, 20, 100, 1000].map(shareAfter);
    expect(shares[0]).toBeCloseTo(0.59, 2);
    for (let i = 1; i < shares.length; i++) expect(shares[i]).toBeLessThan(shares[i - 1] as number);
    expect(shares.at(-1)).toBeCloseTo(0.5, 2);
  });

  it('narrows as similar animals are added, to their own spread', () => {
    const width = (n: number): number => {
      const { low, high } = rangeOfShares(learn(profiles, someElk(n, 0.59)), skinnedElk, 0.8).takeHome;
      return high - low;
    };
    expect(width(20)).toBeLessThan(width(0));
    expect(width(2000)).toBeLessThan(width(20));
    // Animals at 0.58 and 0.60 have a deviation of 0.01: 8 in 10 of a normal span 2 x 1.2816 x 0.01.
    expect(width(2000)).toBeGreaterThan(0.0235);
    expect(width(2000)).toBeLessThan(0.03);
  });

  it('shares what it learned with relatives more than with strangers, and stays less certain of them', () => {
    const before = learn(profiles, []);
    const after = learn(profiles, someElk(60, 0.5));
    const moved = (code: string): number => {
      const kind: Group = { species: code, brought: 'skinned' };
      return meanOf(before, kind, 'takeHome').location - meanOf(after, kind, 'takeHome').location;
    };
    expect(moved('moose')).toBeGreaterThan(moved('bison'));
    expect(moved('bison')).toBeGreaterThan(0);
    const confirmed = (code: string) =>
      meanOf(after, { species: code, brought: 'skinned' }, 'takeHome').effectiveSampleSize;
    expect(confirmed('elk')).toBeGreaterThan(confirmed('moose'));
    expect(confirmed('moose')).toBeGreaterThan(confirmed('bison'));
  });

  it('separates cows from bulls and clean from heavily shot, once they differ', () => {
    const bulls: Group = { ...skinnedElk, sex: 'male' };
    const cows: Group = { ...skinnedElk, sex: 'female' };
    const model = learn(profiles, [...someElk(40, 0.62, bulls), ...someElk(40, 0.55, cows)]);
    const of = (kind: Group): number => rangeOfShares(model, kind, 0.8).takeHome.mean;
    // 7 points apart on the scale, drawn together by less than a third.
    expect(of(bulls) - of(cows)).toBeGreaterThan(0.07 * (2 / 3));
    expect(of(bulls) - of(cows)).toBeLessThan(0.07);
    const clean = of({ ...bulls, damage: 'none' });
    expect(clean).toBeGreaterThan(of({ ...bulls, damage: 'heavy' }));
  });

  it('learns only the first split from an animal weighed twice', () => {
    const model = learn(profiles, someElk(30, 0.5));
    const none = learn(profiles, []);
    expect(meanOf(model, skinnedElk, 'takeHome').effectiveSampleSize).toBeGreaterThan(20);
    expect(meanOf(model, skinnedElk, 'bone')).toEqual(meanOf(none, skinnedElk, 'bone'));
  });

  it('accepts exactly zero damage and fat', () => {
    const clean = someElk(30, 0.6).map((one): YieldObservation => ({
      ...one,
      parts: { bone: 20_000, sinew: 10_000, damage: 0, fatSaved: 0 },
    }));
    const { damage, fatSaved } = rangeOfShares(learn(profiles, clean), skinnedElk, 0.8);
    const prior = rangeOfShares(learn(profiles, []), skinnedElk, 0.8);
    expect(damage.mean).toBeLessThan(prior.damage.mean / 3);
    expect(fatSaved.mean).toBeLessThan(prior.fatSaved.mean / 3);
    expect(Number.isFinite(damage.high)).toBe(true);
  });

  it('treats shrink as the complement of damage', () => {
    const parts = { bone: 20_000, sinew: 10_000 };
    const one = { hangingGrams: 100_000, takeHomeGrams: 60_000, group: skinnedElk };
    const byDamage = summarise([{ ...one, parts: { ...parts, damage: 4000 } }]);
    const byShrink = summarise([{ ...one, parts: { ...parts, shrink: 6000 } }]);
    expect(byShrink).toEqual(byDamage);
  });

  it('does not modify its input sums', () => {
    const before = summarise(someElk(3, 0.6));
    const copy = structuredClone(before);
    addObservation(before, someElk(1, 0.5)[0] as YieldObservation);
    expect(before).toEqual(copy);
  });

  it('learns from sums that went through JSON', () => {
    const sums = summarise(someElk(9, 0.55));
    const stored = JSON.parse(JSON.stringify(sums)) as typeof sums;
    expect(meanOf(modelFrom(profiles, stored), skinnedElk, 'takeHome')).toEqual(
      meanOf(modelFrom(profiles, sums), skinnedElk, 'takeHome'),
    );
  });

  it('accepts parts that exceed the whole by exactly 2 %, in any order of addition', () => {
    // 16 + 24 + 5 + 6 = 51 lb on 50 lb: the remainders, one taken from the other, came out a billionth of a gram above.
    const pound = 453.59237;
    const [wholeCuts, trim, bone, sinew] = [16 * pound, 24 * pound, 5 * pound, 6 * pound];
    const parts = { wholeCuts, trim, bone, sinew };
    const exact = { hangingGrams: 50 * pound, takeHomeGrams: wholeCuts + trim, parts, group: skinnedElk };
    expect(() => summarise([exact])).not.toThrow();
  });

  it('throws a typed error that names the animal', () => {
    const right: YieldObservation = { hangingGrams: 1000, takeHomeGrams: 600, group: skinnedElk };
    const wrong: [object, string, string][] = [
      [{ hangingGrams: 0 }, 'yield.weight', 'hangingGrams'],
      [{ hangingGrams: Number.NaN }, 'yield.weight', 'hangingGrams'],
      [{ takeHomeGrams: -1 }, 'yield.weight', 'takeHomeGrams'],
      [{ takeHomeGrams: 1021 }, 'yield.parts-exceed', 'takeHome'],
      [{ parts: { bone: Infinity } }, 'yield.weight', 'parts.bone'],
      [{ parts: { bone: 421 } }, 'yield.parts-exceed', 'bone'],
      [{ group: { species: '', brought: 'whole' } }, 'yield.species-needed', 'group.species'],
      [{ group: { species: 'elk', brought: 'alive' } }, 'yield.brought', 'group.brought'],
    ];
    for (const [change, code, field] of wrong) {
      const seen = [right, { ...right, ...change }];
      expect(() => learn(profiles, seen), field).toThrow(
        expect.objectContaining({ code, field: `observations[1].${field}` }),
      );
    }
    expect(() => learn(profiles, [{ ...right, takeHomeGrams: 1010 }])).not.toThrow();
    expect(() => learn([], [])).toThrow(expect.objectContaining({ code: 'yield.no-profiles' }));
    expect(() => learn([elk], [{ ...right, group: { species: 'moose', brought: 'whole' } }])).toThrow(
      expect.objectContaining({ code: 'yield.species-unknown' }),
    );
  });
});
