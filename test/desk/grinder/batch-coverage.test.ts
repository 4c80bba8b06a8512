/** How often the 9-in-10 range of a batch's fat holds, in made-up shops with known truth (`test/calibrate/batch-world.ts`). */
import { describe, expect, it } from 'vitest';
import { batchCoverage, BATCH_SIZES, type BatchCount } from '../../calibrate/batch.ts';
import { BATCH_WORLDS } from '../../calibrate/batch-world.ts';

const world = (name: string) => {
  const found = BATCH_WORLDS.find((one) => one.name === name);
  if (!found) throw new Error(name);
  return found;
};
const share = ({ inside, batches }: BatchCount): number => inside / batches;

describe('the 9-in-10 range of a batch', () => {
  // Four binomial standard errors of 2000 and 600 shops: √(0.9 × 0.1 / n) is 0.7 and 1.2 points.
  it.each([
    { tested: 0, shops: 2000, off: 0.027 },
    { tested: 5, shops: 600, off: 0.049 },
    { tested: 20, shops: 600, off: 0.049 },
  ])('holds 9 in 10 after $tested tests, for one animal as for ten', ({ tested, shops, off }) => {
    const counts = batchCoverage(world('as the model believes'), shops, 11, [tested])[tested];
    for (const size of BATCH_SIZES)
      expect(Math.abs(share(counts?.[size] as BatchCount) - 0.9), `${size} animals`).toBeLessThan(off);
  });

  it("narrows as a shop tests: ten animals' range is less than half as wide after 20 tests", () => {
    const counts = batchCoverage(world('as the model believes'), 100, 12, [0, 20]);
    const width = (tested: number) => (counts[tested]?.[10]?.width ?? NaN) / 100;
    expect(width(20)).toBeLessThan(width(0) / 2);
  });

  it('learns that animals lie farther apart than assumed, or nearer', () => {
    const width = (name: string): number =>
      (batchCoverage(world(name), 100, 13, [40])[40]?.[1]?.width ?? NaN) / 100;
    const [half, twice] = [width('animals half as far apart'), width('animals twice as far apart')];
    expect(twice / half).toBeGreaterThan(1.4);
  });

  it('finds the mean of a shop that trims fatter than anybody', () => {
    const counts = batchCoverage(world('mean 2 prior SDs up'), 400, 14, [0, 20]);
    expect(share(counts[0]?.[10] as BatchCount)).toBeLessThan(0.6);
    expect(share(counts[20]?.[10] as BatchCount)).toBeGreaterThan(0.84);
  });
});
