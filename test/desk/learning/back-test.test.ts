import { beforeAll, describe, expect, it } from 'vitest';
import { binomialCounts } from '../../calibrate/coverage.ts';
import {
  backTest,
  countBills,
  countTakeHome,
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

/** All of it, by season and by species. */
function groups(): [string, BackTested[]][] {
  const seasons = Map.groupBy(tested, ({ season }) => String(season));
  const species = Map.groupBy(tested, (one) => one.species);
  return [['all', tested], ...seasons, ...species];
}

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
    for (const [name, of] of groups()) expectHonest(countBills(of, 'on the hook'), name, groups().length);
  });

  it('cover the bill 8 times in 10 too where the hanging weight was predicted', () => {
    expectHonest(countBills(tested, 'as it came'), 'all');
  });

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
