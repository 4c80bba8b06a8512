/** Validates a blend request and prepares it for the solver. */
import type { BlendRequest, BlendSource, FatLimits } from './types.ts';
import { covariancePairsOf, type CovariancePair } from './fat-variance.ts';
import { requireFinite, requireFraction, ValidationError } from '../values/validation-error.ts';

/** More sources than any shop has; above it the solver takes minutes. */
export const MAX_SOURCES = 20_000;

/** A checked request, its sources sorted by id, so that the result does not depend on their order. */
export interface Recipe {
  readonly sources: readonly BlendSource[];
  /** Grams that one unit of a source's column stands for: its scale step, else `massUnit`. */
  readonly columnGrams: readonly number[];
  /**
   * A power of two near the batch size, in grams: scales the solver's numbers to about 1 without rounding. For an open size
   * it follows the mandatory grams, not the stock: stock may be a thousand times as much, and the solver's tolerance would
   * then exceed that of the fat limits.
   */
  readonly massUnit: number;
  readonly size: number | null;
  readonly fat: FatLimits;
  readonly sureBelow: BlendRequest['sureBelow'];
  /** Non-zero covariances of the sources' fat. */
  readonly covariancePairs: readonly CovariancePair[];
}

/** @throws ValidationError for the first wrong input, with its field */
export function readRecipe(request: BlendRequest): Recipe {
  const { sources, batchGrams, fat, sureBelow } = request;
  if (sources.length === 0) throw new ValidationError('sources.empty', 'sources');
  if (sources.length > MAX_SOURCES)
    throw new ValidationError('sources.too-many', 'sources', { most: MAX_SOURCES });
  const seen = new Set<string>();
  sources.forEach((source, i) => {
    checkSource(source, `sources[${i}]`);
    if (seen.has(source.id)) throw new ValidationError('id.duplicate', `sources[${i}].id`, { id: source.id });
    seen.add(source.id);
  });
  checkRange(fat.min, fat.max, 'fat.min', 'fat.max');
  if (sureBelow) {
    requireFraction(sureBelow.fat, 'sureBelow.fat');
    if (!(sureBelow.probability >= 0.5 && sureBelow.probability < 1))
      throw new ValidationError('probability.out-of-range', 'sureBelow.probability', { least: 0.5 });
  }
  const total = sources.reduce((sum, source) => sum + source.availableGrams, 0);
  requireFinite(total, 'sources');
  if (batchGrams !== undefined) positive(batchGrams, 'batchGrams');
  else if (!sources.some((source) => source.useAll && source.availableGrams > 0))
    throw new ValidationError('blend.no-size', 'batchGrams');
  const massUnit = 2 ** Math.ceil(Math.log2(batchGrams ?? mandatoryGrams(sources)));
  const sorted = sources.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return {
    sources: sorted,
    columnGrams: sorted.map((source) => (isStepped(source) ? (source.stepGrams as number) : massUnit)),
    massUnit,
    size: batchGrams ?? null,
    fat,
    sureBelow,
    covariancePairs: covariancePairsOf(sorted),
  };
}

/** Grams of the mandatory sources. */
function mandatoryGrams(sources: readonly BlendSource[]): number {
  return sources.reduce((sum, source) => sum + (source.useAll ? source.availableGrams : 0), 0);
}

/** The continuous relaxation: the same recipe without scale steps. */
export function withoutSteps(recipe: Recipe): Recipe {
  return {
    ...recipe,
    sources: recipe.sources.map((source) => ({ ...source, stepGrams: undefined })),
    columnGrams: recipe.columnGrams.map(() => recipe.massUnit),
  };
}

/** Whether the source is weighed in whole scale steps. */
export function isStepped(source: BlendSource): boolean {
  return source.stepGrams !== undefined && !source.useAll;
}

/** Whether some source is continuous. */
export function hasContinuous(recipe: Recipe): boolean {
  return recipe.sources.some((source) => !source.useAll && !isStepped(source));
}

export function positive(value: number, field: string): void {
  requireFinite(value, field);
  if (value <= 0) throw new ValidationError('grams.not-positive', field, { grams: value });
}

function checkSource(source: BlendSource, field: string): void {
  if (source.id === '') throw new ValidationError('id.empty', `${field}.id`);
  requireFraction(source.fat, `${field}.fat`);
  if (source.fatSd !== undefined) requireFraction(source.fatSd, `${field}.fatSd`);
  requireFinite(source.availableGrams, `${field}.availableGrams`);
  if (source.availableGrams < 0)
    throw new ValidationError('grams.negative', `${field}.availableGrams`, { grams: source.availableGrams });
  requireFinite(source.costPerKg, `${field}.costPerKg`);
  checkRange(source.minShare ?? 0, source.maxShare ?? 1, `${field}.minShare`, `${field}.maxShare`);
  if (source.stepGrams !== undefined) {
    requireFinite(source.stepGrams, `${field}.stepGrams`);
    if (source.stepGrams <= 0)
      throw new ValidationError('step.not-positive', `${field}.stepGrams`, { step: source.stepGrams });
  }
  if (source.queuePosition !== undefined) requireFinite(source.queuePosition, `${field}.turn`);
}

function checkRange(min: number, max: number, minField: string, maxField: string): void {
  requireFraction(min, minField);
  requireFraction(max, maxField);
  if (min > max) throw new ValidationError('range.reversed', minField, { min, max });
}
