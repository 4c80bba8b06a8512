/** What a model says of one more animal of a kind, and how well it knows the mean of that kind. */
import { conflictVarianceAt, foretell, meanAt } from './fit.ts';
import { correlationsWithDamage } from './latent.ts';
import { priorOf, spotsOf } from './layout.ts';
import { needBase, poolOf, type Pool, type YieldModel } from './model.ts';
import { chancesOfNone } from './none.ts';
import type { Group } from './observation.ts';
import { SPLITS, type Split } from './tree.ts';

/** One split foretold on the logit scale: middle + scale * Student's t; of damage, among animals that have any. */
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

/** How the splits of one animal hang together through its damage. */
export interface Together {
  /** Probability that it has no damage at all. */
  readonly none: number;
  /** Of a split with the damage score (`yield-latent.ts`); left out: 0. */
  readonly correlations: Readonly<Partial<Record<Split, number>>>;
}

/** What damage has to do with the rest of one more animal of this kind. */
export function foretellTogether(model: YieldModel, group: Group): Together {
  const pool = poolOf(group);
  const known = learned.get(model) ?? {};
  learned.set(model, known);
  const { chanceOfNone, correlations } = (known[pool] ??= learnTogether(model, pool));
  return { none: chanceOfNone(group), correlations };
}

interface Learned {
  readonly chanceOfNone: (group: Group) => number;
  readonly correlations: Together['correlations'];
}

/** The same for every animal of a pool: worked out once for each model. */
const learned = new WeakMap<YieldModel, Partial<Record<Pool, Learned>>>();

function learnTogether(model: YieldModel, pool: Pool): Learned {
  const cells = model.cells[pool];
  const chanceOfNone = chancesOfNone(cells);
  const spots = new WeakMap<Group, readonly number[]>();
  // Means and spreads alone, without how well they are known: that takes most of the time, a cell being asked four times.
  const animalOf = (group: Group, split: Split) => {
    const places = spots.get(group) ?? spotsOf(group, model.profiles, model.places);
    spots.set(group, places);
    const { effects, variance } = model.fits[pool][split];
    const prior = priorOf(model.priors, group.species, needBase(group), group.sex)[split];
    const mean = places.reduce((total, place) => total + (effects[place] ?? 0), 0);
    return { middle: prior.middle + prior.spread * mean, spread: prior.spread * Math.sqrt(variance) };
  };
  return { chanceOfNone, correlations: correlationsWithDamage(cells, chanceOfNone, animalOf) };
}

/** One split of one more animal of this kind. */
export function foretellSplit(model: YieldModel, group: Group, split: Split): Foretold {
  const places = spotsOf(group, model.profiles, model.places);
  const { middle, scale, degrees } = foretell(model.fits[poolOf(group)][split], group.species, places);
  const prior = priorOf(model.priors, group.species, needBase(group), group.sex)[split];
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
  const prior = priorOf(model.priors, group.species, needBase(group), group.sex)[split];
  const variance = mean.variance + conflictVarianceAt(fit, places) / fit.variance;
  const spread = prior.spread * Math.sqrt(fit.variance);
  return {
    middle: prior.middle + prior.spread * mean.middle,
    spread,
    standardError: spread * Math.sqrt(variance),
    worthAnimals: 1 / variance,
  };
}
