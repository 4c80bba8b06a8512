/** How nearly the shop's cutters keep to the share of the meat that an order wants whole. */
import type { YieldRow } from '../../book/sums/sums.ts';
import type { StudentT } from '../../core/stats/student-t.ts';
import {
  predictDeviationFromSums,
  logitDeviation,
  type DeviationPrior,
  type DeviationSums,
} from '../../core/yield/order-deviation.ts';

/**
 * Before any of the shop's own: who cuts by eye comes within 5 points of the share asked for, two times in three (0.1
 * spreads of a share of one half). Common practice, no source.
 */
const CUTS_OFF: DeviationPrior = { spread: 0.1, priorSampleSize: 5, priorDegrees: 10 };

/** How far the share kept whole came out from what was ordered (`logitDeviation`); null of an animal that does not tell. */
export function cutOff(row: YieldRow): number | null {
  const { cuts_ordered: ordered, whole_cuts: weighed, packed, packed_ground: packedGround } = row;
  const cuts = weighed ?? (packed ?? 0) - packedGround;
  const ground = row.trim_ground + packedGround;
  const trim = row.trim ?? ground;
  // Without a weight of its own, what stayed whole is known only once the grind is packed beside it.
  const tells = cuts > 0 && trim > 0 && (weighed !== null || ground > 0);
  if (!tells || ordered === null || ordered <= 0 || ordered >= 1) return null;
  return logitDeviation(ordered, cuts / (cuts + trim));
}

/** How the next animal will come out, from the sums over those that were cut. */
export function cutsOffFrom(sums: DeviationSums): StudentT {
  return predictDeviationFromSums(sums, CUTS_OFF);
}
