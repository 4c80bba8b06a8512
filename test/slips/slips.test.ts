/** A short form of `npm run slips`: the same animals each time, so that it cannot fail by chance. */
import { beforeAll, describe, expect, it } from 'vitest';
import { bestThresholds, simulate, tally, type Cell } from './simulate.ts';

describe('slips at the table', () => {
  let cells: Cell[];
  beforeAll(async () => {
    cells = await simulate({
      shops: { learned: 1, fresh: 1 },
      animals: 6,
      rightTimes: 6,
      seed: 3,
      missing: [0.2],
      taught: [60],
    });
  }, 120_000);

  it('doubts hardly any animal whose weights are right', () => {
    const right = cells.find(({ slip }) => slip === null)?.outcomes ?? [];
    expect(right).toHaveLength(36);
    expect(
      right.filter(({ unclear, rightQuestioned }) => unclear || rightQuestioned > 0).length,
    ).toBeLessThanOrEqual(1);
  });

  it('finds most slips, questions hardly a right weight, and offers what was meant', () => {
    const slips = cells.filter(({ slip }) => slip !== null).flatMap(({ outcomes }) => outcomes);
    expect(slips).toHaveLength(42);
    expect(slips.filter(({ asked, named, unclear }) => asked || named || unclear).length).toBeGreaterThan(24);
    expect(slips.reduce((sum, { rightQuestioned }) => sum + rightQuestioned, 0)).toBeLessThanOrEqual(2);
    const offered = slips.filter(({ offeredRight }) => offeredRight !== null);
    expect(offered.length).toBeGreaterThan(10);
    expect(offered.filter(({ offeredRight }) => offeredRight).length / offered.length).toBeGreaterThan(0.75);
  });

  it('lies near the best that any test could do', () => {
    const told = cells
      .filter(({ slip }) => slip !== null)
      .map((cell) => tally(cell, bestThresholds(cells, 0.2)));
    const mean = (of: 'found' | 'best'): number =>
      told.reduce((sum, one) => sum + (one[of] ?? NaN), 0) / told.length;
    expect(mean('best')).toBeGreaterThan(0.6);
    expect(mean('found')).toBeGreaterThan(mean('best') - 0.2);
  });
});

it('finds most totes that are entered twice in shops that it does not know and that miss many totes', async () => {
  const [cell] = await simulate({
    shops: { learned: 1, fresh: 4 },
    animals: 40,
    rightTimes: 1,
    seed: 5,
    missing: [0.6],
    taught: [0],
    slips: ['entered twice'],
    best: false,
  });
  const found = cell?.outcomes.filter(({ asked, named, unclear }) => asked || named || unclear) ?? [];
  expect(cell?.outcomes).toHaveLength(40);
  expect(found.length).toBeGreaterThanOrEqual(28);
}, 120_000);
