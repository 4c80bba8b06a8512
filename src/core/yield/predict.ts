/** Predictive distributions of one more animal of a kind, and the posterior of the kind's mean. */
import { conflictVarianceAt, predictiveAt, meanAt } from './fit.ts';
import type { StudentT } from '../stats/student-t.ts';
import { correlationsWithDamage } from './latent.ts';
import { priorOf, columnIndicesOf } from './layout.ts';
import type { YieldModel } from './model.ts';
import { requireBase, poolOf, type Pool } from './pool.ts';
import { fitProbabilityOfNone } from './zero-damage.ts';
import type { Group } from './observation.ts';
import { SPLITS, type Split } from './tree.ts';

/** Every split of one more animal of this kind. */
export function predictSplits(model: YieldModel, group: Group): Record<Split, StudentT> {
  return Object.fromEntries(SPLITS.map((split) => [split, predictSplit(model, group, split)])) as Record<
    Split,
    StudentT
  >;
}

/** How the splits of one animal correlate through its damage. */
export interface DamageDependence {
  /** Probability that it has no damage at all. */
  readonly probabilityOfNone: number;
  /** Correlation of a split with the damage score (`latent.ts`); default 0. */
  readonly correlations: Readonly<Partial<Record<Split, number>>>;
}

/** The damage dependence of one more animal of this kind. */
export function predictDamageDependence(model: YieldModel, group: Group): DamageDependence {
  const pool = poolOf(group);
  const dependenceByPool = dependenceByModel.get(model) ?? {};
  dependenceByModel.set(model, dependenceByPool);
  const { probabilityOfNone, correlations } = (dependenceByPool[pool] ??= learnDamageDependence(model, pool));
  return { probabilityOfNone: probabilityOfNone(group), correlations };
}

interface Learned {
  readonly probabilityOfNone: (group: Group) => number;
  readonly correlations: DamageDependence['correlations'];
}

/** Cached by model and pool. */
const dependenceByModel = new WeakMap<YieldModel, Partial<Record<Pool, Learned>>>();

function learnDamageDependence(model: YieldModel, pool: Pool): Learned {
  const cells = model.cells[pool];
  const probabilityOfNone = fitProbabilityOfNone(cells);
  const indicesByGroup = new WeakMap<Group, readonly number[]>();
  // Point estimates without their uncertainty, which would take most of the time: each cell is evaluated four
  // times.
  const distributionOf = (group: Group, split: Split) => {
    const columnIndices =
      indicesByGroup.get(group) ?? columnIndicesOf(group, model.profiles, model.columnIndexByName);
    indicesByGroup.set(group, columnIndices);
    const { effects, variance } = model.fits[pool][split];
    const prior = priorOf(model.priors, group.species, requireBase(group), group.sex)[split];
    const mean = columnIndices.reduce((total, place) => total + (effects[place] ?? 0), 0);
    return { location: prior.location + prior.scale * mean, scale: prior.scale * Math.sqrt(variance) };
  };
  return {
    probabilityOfNone,
    correlations: correlationsWithDamage(cells, probabilityOfNone, distributionOf),
  };
}

/** One split of one more animal of this kind, on the logit scale; damage is among animals that have any. */
export function predictSplit(model: YieldModel, group: Group, split: Split): StudentT {
  const columnIndices = columnIndicesOf(group, model.profiles, model.columnIndexByName);
  const { location, scale, degrees } = predictiveAt(
    model.fits[poolOf(group)][split],
    group.species,
    columnIndices,
  );
  const prior = priorOf(model.priors, group.species, requireBase(group), group.sex)[split];
  return { location: prior.location + prior.scale * location, scale: prior.scale * scale, degrees };
}

/**
 * Posterior of the mean of one split for this kind of animal, on the logit scale. `effectiveSampleSize` is the
 * number of animals of this kind alone that carry the same information: it rises as more are weighed and falls only
 * where they contradict the prior. `sd` is one animal's, and `standardError` = sd / √effectiveSampleSize.
 */
export function meanOf(
  model: YieldModel,
  group: Group,
  split: Split,
): { location: number; sd: number; standardError: number; effectiveSampleSize: number } {
  const fit = model.fits[poolOf(group)][split];
  const columnIndices = columnIndicesOf(group, model.profiles, model.columnIndexByName);
  const mean = meanAt(fit, columnIndices);
  const prior = priorOf(model.priors, group.species, requireBase(group), group.sex)[split];
  const variance = mean.variance + conflictVarianceAt(fit, columnIndices) / fit.variance;
  const sd = prior.scale * Math.sqrt(fit.variance);
  return {
    location: prior.location + prior.scale * mean.location,
    sd,
    standardError: sd * Math.sqrt(variance),
    effectiveSampleSize: 1 / variance,
  };
}
