/** What a model says of one more animal of a kind, and how well it knows the mean of that kind. */
import { conflictVarianceAt, foretell, meanAt } from './yield-fit.ts';
import { priorOf, spotsOf } from './yield-layout.ts';
import { needBase, poolOf, type YieldModel } from './yield-model.ts';
import type { Group } from './yield-observation.ts';
import { SPLITS, type Split } from './yield-tree.ts';

/** One split foretold on the logit scale: middle + scale * Student's t. */
export interface Foretold {
  readonly middle: number;
  readonly scale: number;
  readonly degrees: number;
}

/** Every split of one more animal of this kind. */
export function foretellSplits(model: YieldModel, group: Group): Record<Split, Foretold> {
  return Object.fromEntries(SPLITS.map((split) => [split, foretellSplit(model, group, split)])) as Record<
    Split,
    Foretold
  >;
}

/** One split of one more animal of this kind. */
export function foretellSplit(model: YieldModel, group: Group, split: Split): Foretold {
  const places = spotsOf(group, model.profiles, model.places);
  const { middle, scale, degrees } = foretell(model.fits[poolOf(group)][split], group.species, places);
  const prior = priorOf(model.priors, group.species, needBase(group))[split];
  return { middle: prior.middle + prior.spread * middle, scale: prior.spread * scale, degrees };
}

/**
 * What is known of the mean of one split for this kind of animal, on the logit scale. `worthAnimals` is how many
 * animals of just this kind would tell as much: it rises as more are weighed, and falls only where they contradict the
 * first guess. `spread` is one animal's, and `standardError` = spread / sqrt(worthAnimals).
 */
export function meanOf(
  model: YieldModel,
  group: Group,
  split: Split,
): { middle: number; spread: number; standardError: number; worthAnimals: number } {
  const fit = model.fits[poolOf(group)][split];
  const places = spotsOf(group, model.profiles, model.places);
  const mean = meanAt(fit, places);
  const prior = priorOf(model.priors, group.species, needBase(group))[split];
  const variance = mean.variance + conflictVarianceAt(fit, places) / fit.variance;
  const spread = prior.spread * Math.sqrt(fit.variance);
  return {
    middle: prior.middle + prior.spread * mean.middle,
    spread,
    standardError: spread * Math.sqrt(variance),
    worthAnimals: 1 / variance,
  };
}
