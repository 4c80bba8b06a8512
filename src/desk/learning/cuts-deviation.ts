/** How closely the shop's cutters match the ordered share of whole cuts. */
import type { YieldRow } from '../../book/sums/sums.ts';
import type { StudentT } from '../../core/stats/student-t.ts';
import {
  predictDeviationFromSums,
  logitDeviation,
  type DeviationPrior,
  type DeviationSums,
} from '../../core/yield/order-deviation.ts';

/**
 * The prior: cutting by eye comes within 5 points of the ordered share, two times in three (0.1 standard deviations
 * of a share of one half). Common practice, no source.
 */
const CUTS_OFF: DeviationPrior = { spread: 0.1, priorSampleSize: 5, priorDegrees: 10 };

/** Deviation of the whole cuts from the order (`logitDeviation`); null for an uninformative animal. */
export function cutsDeviation(row: YieldRow): number | null {
  const { cuts_ordered: ordered, whole_cuts: weighed, packed, packed_ground: packedGround } = row;
  const cuts = weighed ?? (packed ?? 0) - packedGround;
  const ground = row.trim_ground + packedGround;
  const trim = row.trim ?? ground;
  // Without a weight of their own, whole cuts are known only once the grind is packed as well.
  const isInformative = cuts > 0 && trim > 0 && (weighed !== null || ground > 0);
  if (!isInformative || ordered === null || ordered <= 0 || ordered >= 1) return null;
  return logitDeviation(ordered, cuts / (cuts + trim));
}

/** The prediction for the next animal, from the sums over past ones. */
export function predictCutsDeviation(sums: DeviationSums): StudentT {
  return predictDeviationFromSums(sums, CUTS_OFF);
}
