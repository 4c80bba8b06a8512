import { beforeAll, describe, expect, it } from 'vitest';
import { LEARNED_BATCHES } from '../../../src/core/loss/loss.ts';
import { binomialCounts } from '../../calibrate/coverage.ts';
import {
  backTest,
  countBills,
  countTakeHome,
  hasRecipe,
  QUOTED,
  TOLD,
  type BackTested,
  type Counted,
} from '../../calibrate/back-test.ts';
import { withDemo } from '../../calibrate/demo.ts';

/** An honest share of 8 in 10 lies between these; of few animals it is the binomial band that counts. */
const [MIN_COVERAGE, MAX_COVERAGE] = [0.76, 0.84];

let tested: BackTested[];
beforeAll(async () => {
  tested = await withDemo(backTest);
}, 120_000);

/** @param groups how many are looked at: of several, one or another falls out of its own band by chance (Bonferroni's correction) */
function expectHonest({ n, inside }: Counted, of: string, groups = 1): void {
  const band = binomialCounts(QUOTED, n, 0.05 / groups);
  expect
    .soft(inside, `${of}: ${inside} of ${n}`)
    .toBeGreaterThanOrEqual(Math.min(MIN_COVERAGE * n, band.low));
  expect.soft(inside, `${of}: ${inside} of ${n}`).toBeLessThanOrEqual(Math.max(MAX_COVERAGE * n, band.high));
}

function expectNoNarrower({ n, inside, band }: Counted, of: string): void {
  expect.soft(inside, `${of}: ${inside} of ${n}`).toBeGreaterThanOrEqual(Math.min(MIN_COVERAGE * n, band.low));
} // prettier-ignore

/** All of it, by season and by species. */
function groups(of: BackTested[] = tested): [string, BackTested[]][] {
  const seasons = Map.groupBy(of, ({ season }) => String(season));
  const species = Map.groupBy(of, (one) => one.species);
  return [['all', of], ...seasons, ...species];
}

/** Ranges of what a recipe makes are those of an assumption at first, and wider (`npm run calibrate`). */
const plain = (): BackTested[] => tested.filter((one) => !hasRecipe(one));

describe('back-tested quotes', () => {
  it('cover all seasons, most of them with a bill to compare', () => {
    expect(tested.length).toBeGreaterThan(400);
    expect(new Set(tested.map(({ season }) => season)).size).toBe(3);
    expect(countBills(tested, 'on the hook').n).toBeGreaterThan(400);
  });

  it.each(TOLD)('hold the meat that went home 8 times in 10, told the weight %s', (told) => {
    for (const [name, of] of groups()) expectHonest(countTakeHome(of, told), name, groups().length);
  });

  it('cover the bill 8 times in 10, by season and by species', () => {
    const all = groups(plain());
    for (const [name, of] of all) expectHonest(countBills(of, 'on the hook'), name, all.length);
  });

  it('cover the bill 8 times in 10 too where the hanging weight was predicted', () => {
    expectHonest(countBills(plain(), 'as it came'), 'all');
  });

  it('hold no less often where a recipe makes part of the meat; more often, while a recipe has fewer than five batches', () => {
    const made = tested.filter(hasRecipe);
    const bills = countBills(made, 'on the hook');
    expect(bills.n).toBeGreaterThan(30);
    expectNoNarrower(bills, 'bills');
    expectNoNarrower(countTakeHome(made, 'on the hook'), 'take-home');
    const batches = made.flatMap(({ quotes }) => quotes['on the hook'].products.flatMap(({ recipe }) => recipe?.forecast.batches ?? []));
    const learned = batches.filter((count) => count >= LEARNED_BATCHES);
    expect(learned.length).toBeLessThan(batches.length / 10);
  }); // prettier-ignore

  it('are unbiased for meat and bill', () => {
    for (const { n, inside, below } of [
      countTakeHome(tested, 'on the hook'),
      countBills(tested, 'on the hook'),
    ]) {
      const outside = n - inside;
      expect(below).toBeGreaterThan(outside / 5);
      expect(below).toBeLessThan((4 * outside) / 5);
    }
  });
});
