/** The predictive band, and the position of single animals in it. */
import type { PredictionPath, Range } from '../../../bridge/contract.ts';

type Steps = PredictionPath['steps'];
export type Point = PredictionPath['points'][number];

/** The prediction just before an animal: the last step that includes only earlier animals. */
export function bandBefore(steps: PredictionPath['steps'], { nth }: Pick<Point, 'nth'>): Range {
  return steps.findLast(({ n }) => n < nth) ?? { low: 0, mean: 0, high: 1 };
}

export function isInside({ share }: Point, { low, high }: Range): boolean {
  return low <= share && share <= high;
}

/**
 * The range of shares that is drawn: the band plus its own width on both sides, so that one outlier does not
 * flatten it.
 */
export function roomFor(steps: Steps): { low: number; high: number; holds: (share: number) => boolean } {
  const widest = Math.max(...steps.map(({ low, high }) => high - low));
  const low = Math.max(0, Math.min(...steps.map((step) => step.low)) - widest);
  const high = Math.min(1, Math.max(...steps.map((step) => step.high)) + widest);
  return { low, high, holds: (share) => low <= share && share <= high };
}
