import { describe, expect, it } from 'vitest';
import type { CompareBy, ComparisonReport } from '../../../src/bridge/contract.ts';
import { compareStory } from '../../../src/ui/charts/yields/compare-story.ts';
import { firstGroups } from '../../../src/ui/season/first-groups.ts';
import { barsOf, faultsOf, linksOf, wordsOf } from '../plots.ts';
import { format } from '../season-looks.ts';

const names = { a: 'Moose, brought skinned', b: 'Elk' };
const look = (some: Partial<ComparisonReport> = {}): ComparisonReport => ({
  by: 'takeHome',
  a: { n: 31, mean: 0.571, sd: 0.03 },
  b: { n: 52, mean: 0.55, sd: 0.04 },
  difference: { low: 0.004, mean: 0.021, high: 0.038, level: 0.9 },
  inBoth: 0,
  fewest: 5,
  ...some,
});
const told = (some: Partial<ComparisonReport> = {}) =>
  compareStory(look(some), names, format, (side) => `/${side}`);

describe('a comparison of two groups', () => {
  it('reports which gave more, the interval, and the number of animals', () => {
    expect(told().finding).toBe(
      'Moose, brought skinned gave 2.1 points more take-home than Elk on average (means). The true difference is 0.4 points to 3.8 points (90%), from 31 and 52 animals.',
    );
  });

  it('swaps the interval when the first gave less', () => {
    expect(told({ difference: { low: -0.038, mean: -0.021, high: -0.004, level: 0.9 } }).finding).toContain(
      'gave 2.1 points less take-home than Elk on average (means). The true difference is 0.4 points to 3.8 points',
    );
  });

  it('reports no difference when the interval includes zero', () => {
    expect(told({ difference: { low: -0.004, mean: 0.01, high: 0.024, level: 0.9 } }).finding).toMatch(
      /^No clear difference between Moose, brought skinned and Elk: the true difference is anywhere from -?.?0.4 points to 2.4 points/,
    );
  });

  it('warns of few animals and of animals in both groups', () => {
    expect(told({ a: { n: 3, mean: 0.5, sd: 0.1 } }).finding).toContain('Fewer than 5 animals');
    expect(told({ inBoth: 4 }).finding).toContain('4 animals are in both groups');
    expect(told({ inBoth: 31, b: { n: 31, mean: 0.5, sd: 0.1 } }).finding).toContain('the same animals');
  });

  it('reports a group with fewer than two animals, and still draws the other', () => {
    const story = told({
      a: { n: 0, mean: null, sd: null },
      b: { n: 1, mean: 0.5, sd: null },
      difference: null,
    });
    expect(story.finding).toContain(
      'No animal of “Moose, brought skinned” has this figure. Only one animal of “Elk”',
    );
    expect(faultsOf(story)).toEqual([]);
    const none = { n: 0, mean: null, sd: null };
    expect(told({ a: none, b: none, difference: null }).plots).toEqual([]);
  });

  it.each<[CompareBy, number, string]>([
    ['takeHome', 0.021, '2.1 points'],
    ['bone', 0.021, '2.1 points'],
    ['damage', 0.021, '2.1 points'],
    ['hanging', 4535.9237, '10.0 lb'],
    ['days', 2.25, '2.3 days'],
    ['income', 1234.4, '$12.34'],
  ])('writes %s as a person would', (by, mean, said) => {
    const story = told({ by, difference: { low: mean / 2, mean, high: mean * 2, level: 0.9 } });
    expect(story.finding).toContain(said);
    expect(wordsOf(story)).toContain(said);
  });

  it('never draws shares below zero, and links to both groups', () => {
    const story = told({ a: { n: 9, mean: 0.01, sd: 0.05 } });
    expect(faultsOf(story)).toEqual([]);
    expect(barsOf(story).map(({ from }) => from)).toEqual([0, expect.closeTo(0.51, 9)]);
    expect(linksOf(story)).toEqual(['/a', '/b']);
  });
});

describe('the default comparison', () => {
  const choices = {
    seasons: [2026],
    species: [
      { code: 'moose', name: 'Moose', animals: 3 },
      { code: 'elk', name: 'Elk', animals: 30 },
      { code: 'deer', name: 'Deer', animals: 40 },
    ],
    cutters: [],
    days: null,
  };

  it('is the two most frequent species', () => {
    expect(firstGroups({ season: 2026 }, choices)).toEqual({
      a: { season: 2026, species: 'deer' },
      b: { season: 2026, species: 'elk' },
    });
  });

  it('is one species by carcass condition', () => {
    expect(firstGroups({ species: 'elk' }, choices)).toEqual({
      a: { species: 'elk', brought: 'skinned' },
      b: { species: 'elk', brought: 'whole' },
    });
    expect(firstGroups({}, null).a).toEqual({ brought: 'skinned' });
  });
});
