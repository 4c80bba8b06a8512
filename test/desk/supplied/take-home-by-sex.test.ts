import { expect, it } from 'vitest';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';
import { yieldKnowledge } from '../../../src/desk/learning/yield-knowledge.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';

/**
 * Published: 218 lb of boneless lean from 364 lb hanging of six bulls, 169 from 294 of six cows. University of Wyoming AES
 * B-594R, 2003, second-hand. What is told of an even mix is the profile's 0.59, half a hundredth above their mean.
 */
const PUBLISHED = { male: 218 / 364, female: 169 / 294 };

it('quotes a bull, a cow and an elk of unknown sex in a new shop as published', async () => {
  const shop = await freshDesk();
  const instructions = {
    cutsShare: 0.4,
    fat: 'none',
    targetFat: null,
    grindProduct: 'Ground',
    packageGrams: 453.59237,
    extras: [],
    note: '',
  };
  const share = async (sex: 'male' | 'female' | 'unknown') => {
    const asked = {
      species: 'elk',
      sex,
      brought: 'skinned',
      stage: 'hanging',
      typed: '300',
      instructions,
    } as const;
    const { takeHomeGrams, hangingGrams } = await shop.call('quotes.calculate', asked);
    return takeHomeGrams.mean / hangingGrams.mean;
  };
  const [bull, cow, unknown] = [await share('male'), await share('female'), await share('unknown')];
  expect(Math.abs(bull - PUBLISHED.male)).toBeLessThan(0.006);
  expect(Math.abs(cow - PUBLISHED.female)).toBeLessThan(0.006);
  expect(bull - cow).toBeCloseTo(PUBLISHED.male - PUBLISHED.female, 2);
  expect(Math.abs(unknown - (bull + cow) / 2)).toBeLessThan(0.002);
});

it('compares a bull and a cow with their own usual take-home at the table', async () => {
  const shop = await freshDesk();
  const usual = async (sex: 'male' | 'female') => {
    const id = await takeIn(shop, { sex, hunter: { name: `Owner of a ${sex}` } }, '300');
    const { expected } = await shop.call('animals.get', { id });
    const { low = NaN, high = NaN } = expected.find(({ part }) => part === 'take-home') ?? {};
    return (low + high) / 2;
  };
  expect((await usual('male')) - (await usual('female'))).toBeCloseTo(PUBLISHED.male - PUBLISHED.female, 2);
});

it('balances a cow against cows: less meat and more bone expected than for a bull', () => {
  const knowledge = yieldKnowledge([], SPECIES);
  const mean = (sex: 'male' | 'female') =>
    knowledge.partShares({ id: 1, species: 'elk', brought: 'skinned', sex }).mean;
  const [bull, cow] = [mean('male'), mean('female')];
  expect((bull[0] ?? 0) - (cow[0] ?? 0)).toBeCloseTo(PUBLISHED.male - PUBLISHED.female, 2);
  expect(bull[3]).toBeLessThan(cow[3] ?? 0);
});
