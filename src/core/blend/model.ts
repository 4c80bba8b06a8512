/**
 * The rules of a blend as rows of a linear program. Columns: one per source (whole steps, or a share of the mass
 * unit), then the size of the batch. All rows are in mass units; the fat of a batch is a ratio, so each limit is
 * multiplied out: fat ≥ min becomes Σ (fatᵢ − min)·xᵢ ≥ 0.
 */
import type { FatLimits } from './types.ts';
import { isStepped, type Recipe } from './input.ts';
import type { Column, Program, Row } from './program.ts';

export type Term = readonly [column: number, coefficient: number];

/** Constraints that are never relaxed: stock, mandatory sources, share limits, steps. */
export function hardConstraints(recipe: Recipe, rules: { shares: boolean } = { shares: true }): Program {
  const { sources, massUnit } = recipe;
  const size = sizeColumn(recipe);
  const columns: Column[] = sources.map((source, i) => {
    const perColumn = recipe.columnGrams[i] as number;
    const upper = source.availableGrams / perColumn;
    const whole = isStepped(source);
    return {
      lower: source.useAll ? upper : 0,
      upper: whole ? Math.floor(upper + STEP_COUNT_TOLERANCE) : upper,
      cost: 0,
      whole,
    };
  });
  const rows: Row[] = [
    { terms: [...massTerms(recipe, () => 1), [size, -1]], lower: 0, upper: 0 },
    ...(rules.shares ? sources.flatMap((_, i) => shareRows(recipe, i)) : []),
  ];
  const total = sources.reduce((sum, source) => sum + source.availableGrams, 0);
  return { columns: [...columns, { lower: 0, upper: (2 * total) / massUnit, cost: 0 }], rows };
}

/** 12 steps may be computed as 11.999999999. */
export const STEP_COUNT_TOLERANCE = 1e-9;

export function sizeColumn(recipe: Recipe): number {
  return recipe.sources.length;
}

/** One term per source: its mass, in mass units, times `each`. */
export function massTerms(recipe: Recipe, each: (sourceIndex: number) => number): Term[] {
  return recipe.columnGrams.map((grams, i) => [i, (each(i) * grams) / recipe.massUnit]);
}

export function fatOf(recipe: Recipe, index: number): number {
  return recipe.sources[index]?.fat as number;
}

/** Constrains the size to `low`..`high` grams. */
export function withSize(program: Program, recipe: Recipe, low: number, high: number): Program {
  const at = sizeColumn(recipe);
  const columns = program.columns.map((column, i) =>
    i === at ? { ...column, lower: low / recipe.massUnit, upper: high / recipe.massUnit } : column,
  );
  return { ...program, columns };
}

/** Constrains the fat to the limits, or beyond them by at most the mass in `slackColumn`. */
export function withFat(program: Program, recipe: Recipe, fat: FatLimits, slackColumn?: number): Program {
  const above: Term[] = massTerms(recipe, (i) => fatOf(recipe, i) - fat.min);
  const below: Term[] = massTerms(recipe, (i) => fatOf(recipe, i) - fat.max);
  const rows: Row[] = [
    { terms: slackColumn === undefined ? above : [...above, [slackColumn, 1]], lower: 0, upper: Infinity },
    { terms: slackColumn === undefined ? below : [...below, [slackColumn, -1]], lower: -Infinity, upper: 0 },
  ];
  return { ...program, rows: [...program.rows, ...rows] };
}

/** A further column; its number is `program.columns.length` before the call. */
export function withColumn(program: Program, column: Column): Program {
  return { ...program, columns: [...program.columns, column] };
}

export function withRow(program: Program, row: Row): Program {
  return { ...program, rows: [...program.rows, row] };
}

/**
 * The objective: `main`, then cost, then size. The later terms have weights so small that they only break ties (to about a
 * millionth).
 */
export function withGoal(program: Program, recipe: Recipe, main: readonly Term[] | 'cost'): Program {
  const maxCost = Math.max(...recipe.sources.map((source) => Math.abs(source.costPerKg)));
  const costs = massTerms(recipe, (i) => (recipe.sources[i]?.costPerKg as number) / (maxCost || 1));
  const weight = main === 'cost' ? 1 : TIE_BREAK_WEIGHT;
  // Where all costs are 0 the size is the objective and must exceed the solver's gap.
  const sizeWeight = main === 'cost' && maxCost === 0 ? 1 : weight * TIE_BREAK_WEIGHT;
  const goal = new Map<number, number>();
  const add = ([column, coefficient]: Term): unknown =>
    goal.set(column, (goal.get(column) ?? 0) + coefficient);
  if (main !== 'cost') main.forEach(add);
  costs.forEach(([column, coefficient]) => add([column, coefficient * weight]));
  add([sizeColumn(recipe), sizeWeight]);
  return {
    ...program,
    columns: program.columns.map((column, i) => ({ ...column, cost: goal.get(i) ?? 0 })),
    absoluteGap: main === 'cost' ? undefined : ABSOLUTE_GAP,
  };
}

const TIE_BREAK_WEIGHT = 1e-6;

/** Optimality gap with whole steps, in mass units: 0.001 points of fat. */
const ABSOLUTE_GAP = 1e-5;

function shareRows(recipe: Recipe, index: number): Row[] {
  const source = recipe.sources[index];
  const mass = (recipe.columnGrams[index] as number) / recipe.massUnit;
  const shareTerms = (share: number): Term[] => [
    [index, mass],
    [sizeColumn(recipe), -share],
  ];
  const rows: Row[] = [];
  if (source?.minShare) rows.push({ terms: shareTerms(source.minShare), lower: 0, upper: Infinity });
  if (source?.maxShare !== undefined && source.maxShare < 1)
    rows.push({ terms: shareTerms(source.maxShare), lower: -Infinity, upper: 0 });
  return rows;
}
