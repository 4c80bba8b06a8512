/** A new shop's ranges hold from its first animal, whether its owner's shops are alike or not. `npm run calibrate` prints the whole table. */
import { expect, it } from 'vitest';
import { OWNER_WORLDS, ownersHeld, type OwnerHeld } from '../../calibrate/owners.ts';

const world = (start: string) => OWNER_WORLDS.find(({ name }) => name.startsWith(start))!;
const share = (held: OwnerHeld, of: 'inside' | 'splits' | 'width' | 'aloneWidth'): number =>
  held[of] / held.owners;
// Over all splits of 100 animals the standard error of 80 % is about 1.8 points.
it.each([
  ['alike', 8],
  ['unlike (nothing', 4],
  ['alike', 2],
] as const)(
  'holds 8 in 10 from its first animal: %s, %i shops',
  (start, shops) => {
    for (const held of ownersHeld(world(start), shops, 100, 41, [0, 1])) {
      expect(share(held, 'splits')).toBeGreaterThan(0.76);
      expect(share(held, 'splits')).toBeLessThan(0.86);
      const narrower = share(held, 'width') / share(held, 'aloneWidth');
      if (start === 'alike') expect(narrower).toBeLessThan(shops === 8 ? 0.9 : 1);
      else expect(narrower).toBeGreaterThan(0.96);
    }
  },
  300_000,
);
