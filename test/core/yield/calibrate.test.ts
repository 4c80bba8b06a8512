/**
 * The ranges are honest: over many made-up shops the 8-in-10 ranges hold 76 to 84 of 100 new animals.
 * `node test/calibrate/run.ts` prints the whole table.
 */
import { describe, expect, it } from 'vitest';
import { COUNTED, coverage, LEVELS, type Coverage } from '../../calibrate/coverage.ts';
import { WORLDS, type World } from '../../calibrate/world.ts';

const EIGHT_IN_TEN = LEVELS.indexOf(0.8);
const believed = WORLDS[0] as World;

/** Share of shops whose new animal lay inside, by part, over several seeds. */
function held(lots: readonly Coverage[], level: number): Map<string, number> {
  const shops = lots.reduce((total, lot) => total + lot.shops, 0);
  const inside = (part: string): number =>
    lots.reduce((total, lot) => total + (lot.inside[part]?.[level] ?? 0), 0);
  return new Map(COUNTED.map((part) => [part, inside(part) / shops]));
}

const mean = (shares: Map<string, number>): number =>
  [...shares.values()].reduce((total, share) => total + share, 0) / shares.size;

describe.each([0, 25])(
  'after %i animals, in the world that the model believes in',
  (weighed) => {
    // 600 shops: the standard error of a count of 80 in 100 is 1.6 points, the wanted band 2.5 of them wide to each side.
    const lots = [11, 12, 13].map((seed) => coverage(believed, weighed, 200, seed));

    it.each(COUNTED)('80 % ranges cover %s', (part) => {
      const share = held(lots, EIGHT_IN_TEN).get(part);
      expect(share).toBeGreaterThan(0.76);
      // Where more than a tenth have no damage nothing lies below its range: an honest one holds up to 90 %.
      expect(share).toBeLessThan(part === 'damage' ? 0.91 : 0.84);
    });

    it('every single seed covers over all parts, at every level', () => {
      for (const lot of lots)
        for (const [i, level] of LEVELS.entries())
          expect(Math.abs(mean(held([lot], i)) - level)).toBeLessThan(0.04);
    });
  },
  300_000,
);

it.each(WORLDS.slice(1))(
  'still holds where the world is otherwise: $name',
  (world) => {
    const shares = held([coverage(world, 40, 100, 21), coverage(world, 40, 100, 22)], EIGHT_IN_TEN);
    expect(mean(shares)).toBeGreaterThan(0.76);
    expect(mean(shares)).toBeLessThan(0.84);
  },
  300_000,
);

it('detects ranges that are too narrow', () => {
  // Quoting from live weight without its spread: what honest ranges must not do.
  const world = WORLDS.find(({ quotedLive }) => quotedLive) as World;
  const blind = coverage(world, 25, 150, 31, { forgetConversion: true });
  expect(held([blind], EIGHT_IN_TEN).get('takeHome')).toBeLessThan(0.74);
}, 300_000);
