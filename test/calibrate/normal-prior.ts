/**
 * The take-home range that normal priors and one spread prior would give: what heavy tails are measured against, for
 * what they win where a profile is wrong and cost where it is right.
 */
import { tQuantile } from '../../src/core/stats/distributions.ts';
import type { SpeciesProfile } from '../../src/core/species/species.ts';
import { layoutOf, priorOf } from '../../src/core/yield/layout.ts';
import { requireBase, poolOf } from '../../src/core/yield/pool.ts';
import {
  crossProductsOf,
  meanAt,
  posteriorOf,
  type GroupStatistics,
} from '../../src/core/yield/regression.ts';
import { inverseLogit } from '../../src/core/yield/tree.ts';
import type { Group, YieldSums } from '../../src/core/yield/yield.ts';

/** A species' variance is drawn to the common one as if that were so many of its animals. */
const COMMON_ANIMALS = 20;

export function normalPriorRange(
  profiles: readonly SpeciesProfile[],
  sums: YieldSums,
  group: Required<Group>,
  level: number,
): { low: number; high: number } {
  const { priors, columns, columnIndexByName: places, columnIndices: spots } = layoutOf(profiles);
  const heaps = Object.values(sums).flatMap((cell): GroupStatistics[] => {
    const { takeHome } = cell.splits;
    if (!takeHome || poolOf(cell.group) !== poolOf(group)) return [];
    const { species, sex } = cell.group;
    const { location: middle, scale: spread } = priorOf(
      priors,
      species,
      requireBase(cell.group),
      sex,
    ).takeHome;
    const { n, sum, squares } = takeHome;
    const standard = {
      sum: (sum - n * middle) / spread,
      squares: (squares - 2 * middle * sum + n * middle ** 2) / spread ** 2,
    };
    return [{ columnIndices: spots(cell.group), species, n, ...standard }];
  });
  const posterior = posteriorOf(columns('takeHome'), crossProductsOf(places.size, heaps));

  let [n, squares] = [0, 0];
  for (const heap of heaps) {
    if (heap.species !== group.species) continue;
    const mean = meanAt(posterior, heap.columnIndices);
    n += heap.n;
    squares += heap.squares - 2 * mean.location * heap.sum + heap.n * mean.location ** 2;
    squares += heap.n * mean.variance * posterior.variance;
  }
  const own = (COMMON_ANIMALS * posterior.variance + squares) / (COMMON_ANIMALS + n);
  const degrees = n === 0 ? posterior.degrees : Math.min(posterior.degrees, COMMON_ANIMALS + n);
  const mean = meanAt(posterior, spots(group));
  const { location: middle, scale: spread } = priorOf(
    priors,
    group.species,
    requireBase(group),
    group.sex,
  ).takeHome;
  const centre = middle + spread * mean.location;
  const scale = spread * Math.sqrt(own + posterior.variance * mean.variance);
  const reach = scale * tQuantile((1 + level) / 2, degrees);
  return { low: inverseLogit(centre - reach), high: inverseLogit(centre + reach) };
}
