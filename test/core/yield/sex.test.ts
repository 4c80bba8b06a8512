import { describe, expect, it } from 'vitest';
import { splitPriors } from '../../../src/core/yield/prior.ts';
import { learn, takeHomeRange, type Group, type YieldObservation } from '../../../src/core/yield/yield.ts';
import { inverseLogit } from '../../../src/core/yield/tree.ts';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';
import { profileOf } from '../../outside/results/profiles.ts';

const elk = profileOf('elk');
const deer = profileOf('white-tail');
const of = (species: string, sex: Group['sex'], brought: Group['brought'] = 'skinned'): Group => ({
  species,
  brought,
  sex,
});
const meanOf = (group: Group, observations: readonly YieldObservation[] = []) =>
  takeHomeRange(learn(SPECIES, observations), group, 0.8).mean;

/**
 * Published: 218 lb of boneless lean from 364 lb hanging of six bulls, 169 from 294 of six cows. University of Wyoming AES
 * B-594R, 2003, second-hand.
 */
const PUBLISHED = { male: 218 / 364, female: 169 / 294 };

describe('the take-home of elk by sex', () => {
  it("differs in a new shop as published, around the profile's mean", () => {
    const [bull, cow] = [meanOf(of('elk', 'male')), meanOf(of('elk', 'female'))];
    expect(bull - cow).toBeCloseTo(PUBLISHED.male - PUBLISHED.female, 3);
    expect((bull + cow) / 2).toBeCloseTo(elk.takeHome.mean, 3);
  });

  it('for unknown sex is the mixture, with an unchanged range', () => {
    expect(meanOf(of('elk', 'unknown'))).toBeCloseTo(elk.takeHome.mean, 3);
    expect(splitPriors(elk, 'carcass', 'unknown')).toBe(splitPriors(elk, 'carcass'));
  });

  it('does not change where the profile has no figures by sex', () => {
    expect(splitPriors(elk, 'quarters', 'male')).toBe(splitPriors(elk, 'quarters'));
    expect(splitPriors(deer, 'carcass', 'female')).toBe(splitPriors(deer, 'carcass'));
    expect(meanOf(of('elk', 'male', 'quarters'))).toBe(meanOf(of('elk', 'unknown', 'quarters')));
  });

  it('does not change for cows while a shop weighs typical bulls', () => {
    const { location, scale } = splitPriors(elk, 'carcass', 'male').takeHome;
    const bulls = Array.from({ length: 60 }, (_, i) => ({
      hangingGrams: 160_000,
      takeHomeGrams: 160_000 * inverseLogit(location + 0.8 * scale * (i % 2 ? 1 : -1)),
      group: of('elk', 'male'),
    }));
    expect(meanOf(of('elk', 'female'), bulls)).toBeCloseTo(meanOf(of('elk', 'female')), 2);
    expect(meanOf(of('elk', 'male'), bulls) - meanOf(of('elk', 'female'), bulls)).toBeGreaterThan(0.02);
  });
});
