/**
 * Predicts what an animal yields, from published figures as priors and the shop's own weighings.
 * The model is a tree of splits (`tree.ts`), each fitted separately (`fit.ts`).
 */
import type { StudentT } from '../stats/student-t.ts';
import { predictShare } from './order-deviation.ts';
import { ValidationError } from '../values/validation-error.ts';
import type { SpeciesProfile } from '../species/species.ts';
import { predictSplits, predictDamageDependence } from './predict.ts';
import { modelFrom, type YieldModel } from './model.ts';
import { requireBase } from './pool.ts';
import type { Group, YieldObservation } from './observation.ts';
import { drawParts, simulateParts, type DrawnParts, type Range, type SimulationInput } from './simulate.ts';
import { summarise } from './sums.ts';
import { PARTS, type Part, type Split } from './tree.ts';

export { meanOf } from './predict.ts';
export { modelFrom, type YieldModel } from './model.ts';
export type { Group, YieldObservation } from './observation.ts';
export { DAMAGES } from './columns.ts';
export { lessonsFrom, LEAST_ANIMALS, type YieldLesson } from './lessons.ts';
export { predictionPath, takeHomeRange } from './path.ts';
export type { DrawnParts, Range } from './simulate.ts';
export { summarise, addObservation, mergeSums, removeObservation, type YieldSums } from './sums.ts';
export { PARTS, SPLITS, type Part, type Split } from './tree.ts';

/** Draws for a quote: the end of an 8-in-10 range then lies within about 0.6 points (one standard error) of its level. */
const DRAWS = 2500;
/** Season charts use a fixed seed: the same weighings give the same band. */
const SHARES_SEED = 1;

export interface PredictionRequest {
  /** Hanging weight, or its mean where it is estimated; for quarters, primals and boned meat the received weight. */
  readonly hangingGrams: number;
  /** SD of the natural logarithm of the hanging weight (from `hangingFrom`); default 0, a weighed one. */
  readonly hangingLogSd?: number;
  /** May be absent where the model has a single species; the default is then skinned. */
  readonly group?: Group;
  /** The ordered share of the meat in whole cuts; default: predicted from earlier animals. */
  readonly cutsShare?: number;
  /** Predicted deviation from such orders (`logitDeviation`, `predictDeviation`); default: none. */
  readonly cutsDeviation?: StudentT;
  /** 0.8 for "8 in 10". */
  readonly level: number;
  /** Any integer; the same seed gives the same ranges. */
  readonly seed: number;
  /** Default 2500, least 100. */
  readonly draws?: number;
}

export interface YieldPrediction {
  readonly hanging: Range;
  /** In grams. The means of the seven leaves add up to the mean hanging weight. */
  readonly parts: Readonly<Record<Part, Range>>;
  /** Animals of this species weighed in this shop. */
  readonly animals: number;
}

/**
 * The model after these animals: `prior` is the list of species profiles, `observations` are the shop's own.
 * The order of either does not matter. Keep the sums of `summarise` and call `modelFrom` to skip the pass over all animals.
 * @throws ValidationError as `summarise` and `modelFrom`
 */
export function learn(
  prior: readonly SpeciesProfile[],
  observations: readonly YieldObservation[],
): YieldModel {
  return modelFrom(prior, summarise(observations));
}

/**
 * The predicted parts of an animal of this weight and kind, each with its central range at `level`. Ranges of
 * different parts are coherent: they come from the same simulated animals.
 * @throws ValidationError `yield.weight`, `yield.spread`, `yield.level`, `yield.share`, `yield.draws`, `random.seed`,
 *   `yield.species-needed`, `yield.species-unknown`, `yield.brought`, `yield.group`
 * @example predict(learn([elk], []), { hangingGrams: 150_000, level: 0.8, seed: 1 }).parts.takeHome.mean // about 88_000
 */
export function predict(model: YieldModel, request: PredictionRequest): YieldPrediction {
  const { splits, group, input } = simulationOf(model, request);
  return {
    ...simulateParts(splits, predictDamageDependence(model, group), input, PARTS),
    animals: model.animals.get(group.species) ?? 0,
  };
}

/** The range of one part alone, the same as among `predict`'s. @throws ValidationError as `predict` */
export function predictPart(model: YieldModel, request: PredictionRequest, part: Part): Range {
  const { splits, group, input } = simulationOf(model, request);
  return simulateParts(splits, predictDamageDependence(model, group), input, [part]).parts[part];
}

/**
 * The simulated animals behind `predict`, draw by draw: for what depends on several parts, or on something uncertain besides.
 * @throws ValidationError as `predict`
 */
export function predictDraws(model: YieldModel, request: PredictionRequest): DrawnParts<Part> {
  const { splits, group, input } = simulationOf(model, request);
  return drawParts(splits, predictDamageDependence(model, group), input, PARTS);
}

function simulationOf(
  model: YieldModel,
  request: PredictionRequest,
): { splits: Record<Split, StudentT>; group: Group; input: SimulationInput } {
  const {
    hangingGrams,
    hangingLogSd = 0,
    cutsShare = null,
    cutsDeviation,
    level,
    seed,
    draws = DRAWS,
  } = request;
  check(hangingGrams > 0 && Number.isFinite(hangingGrams), 'yield.weight', 'hangingGrams');
  check(hangingLogSd >= 0 && hangingLogSd < 1, 'yield.spread', 'hangingLogSd');
  check(level > 0 && level < 1, 'yield.level', 'level');
  check(cutsShare === null || (cutsShare >= 0 && cutsShare <= 1), 'yield.share', 'cutsShare');
  check(Number.isInteger(draws) && draws >= 100, 'yield.draws', 'draws');
  const group = request.group ?? onlyGroup(model);
  const base = requireBase(group);
  const splits = predictSplits(model, group);
  // An order for no whole cuts, or for whole cuts only, is followed exactly.
  const deviates = cutsDeviation && cutsShare !== null && cutsShare > 0 && cutsShare < 1;
  if (deviates) splits.wholeCuts = predictShare(cutsShare, cutsDeviation);
  const exactCutsShare = deviates ? null : cutsShare;
  return {
    splits,
    group,
    input: { hangingGrams, hangingLogSd, cutsShare: exactCutsShare, level, seed, draws, base },
  };
}

/**
 * Each part as a share of the hanging weight with its central range at `level`, for the table and the season charts
 * ("other mule deer does, 8 in 10").
 * @throws ValidationError as `predict`
 */
export function rangeOfShares(model: YieldModel, group: Group, level: number): Record<Part, Range> {
  return { ...predict(model, { hangingGrams: 1, group, level, seed: SHARES_SEED }).parts };
}

/** The range of one part alone, the same as among `rangeOfShares`. @throws ValidationError as `predict` */
export function rangeOfShare(model: YieldModel, group: Group, part: Part, level: number): Range {
  return predictPart(model, { hangingGrams: 1, group, level, seed: SHARES_SEED }, part);
}

function onlyGroup(model: YieldModel): Group {
  const [species, another] = model.profiles.keys();
  if (species === undefined || another !== undefined)
    throw new ValidationError('yield.species-needed', 'group');
  return { species, brought: 'skinned' };
}

function check(right: boolean, code: string, field: string): void {
  if (!right) throw new ValidationError(code, field);
}
