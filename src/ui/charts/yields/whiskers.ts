import type { SpeciesYield } from '../../../bridge/contract.ts';
import { FEW } from '../story.ts';

/** Whiskers reach this many lengths of the box beyond it; what lies farther out is odd. */
const REACH = 1.5;

/**
 * The ends of the whiskers of a species with enough animals: the outermost animals that are not odd. Odd ones lie more than
 * `REACH` lengths of the box away from it, the farthest first.
 */
export function whiskersOf({ spread, points }: Pick<SpeciesYield, 'spread' | 'points'>): {
  low: number;
  high: number;
  odd: SpeciesYield['points'];
} | null {
  if (!spread || spread.n < FEW) return null;
  const { q1, q3 } = spread;
  const reach = REACH * (q3 - q1);
  const away = ({ share }: { share: number }): number => Math.max(q1 - share, share - q3);
  const usual = points.filter((point) => away(point) <= reach).map(({ share }) => share);
  return {
    low: Math.min(q1, ...usual),
    high: Math.max(q3, ...usual),
    odd: points.filter((point) => away(point) > reach).sort((a, b) => away(b) - away(a)),
  };
}
