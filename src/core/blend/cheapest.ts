/** The cheapest batch that meets every wish. */
import { RELATIVE_TOLERANCE } from './batch.ts';
import { hasContinuous, isStepped, type Recipe } from './input.ts';
import {
  hardConstraints,
  massTerms,
  sizeColumn,
  withColumn,
  withFat,
  withGoal,
  withRow,
  withSize,
} from './model.ts';
import type { Program } from './program.ts';
import { ValidationError } from '../values/validation-error.ts';
import { sizesInSteps } from './sizes.ts';
import { solveChanceConstrained, type Solved } from './chance-constraint.ts';
import { hasFifoOrder, withFifoOrder } from './fifo.ts';

/**
 * Cheapest batch, or null when there is none. Among equally cheap ones the smaller batch, and among those the one
 * that the solver meets first; sources are in the order of their ids, so the same request gives the same plan.
 *
 * Size rule for scales: a fixed size that whole steps cannot hit exactly is met as nearly as they can, if that
 * misses it by no more than half the finest step; the fat limits are never widened. Steps of several kinds make sizes
 * very dense: there a size within a hundredth of the finest step of the nearest is as near, and where the search among
 * those takes too long, any size within half the finest step.
 */
async function cheapest(recipe: Recipe, constraints: Program): Promise<Solved | null> {
  const rules = withFat(constraints, recipe, recipe.fat);
  const { size } = recipe;
  const within = (low: number, high: number): Promise<Solved | null> =>
    solveChanceConstrained(recipe, withGoal(withSize(rules, recipe, low, high), recipe, 'cost'));
  if (size === null) return solveChanceConstrained(recipe, withGoal(rules, recipe, 'cost'));
  const around = (off: number): Promise<Solved | null> =>
    within(Math.max(size - off, size * RELATIVE_TOLERANCE), size + off);
  const tolerance = sizeTolerance(recipe);
  const grid = sizesInSteps(recipe, size);
  if (grid) return grid.low > grid.high ? null : within(grid.low - grid.step / 4, grid.high + grid.step / 4);
  const exact = tolerance === 0 || hasContinuous(recipe) ? await within(size, size) : null;
  if (exact || tolerance === 0) return exact;
  const deviation = await leastSizeDeviation(recipe, rules, size);
  if (deviation === null) return null;
  const near = await inTime(recipe, around(Math.min(tolerance, deviation + SIZE_TIE_SHARE * 2 * tolerance)));
  return near === 'too long' ? around(tolerance) : near;
}

/** Part of the finest step by which one size may be farther off than another and count as near. */
const SIZE_TIE_SHARE = 0.01;

/** Grams by which the nearest batch misses the size; half the finest step where finding out takes too long. */
async function leastSizeDeviation(recipe: Recipe, rules: Program, size: number): Promise<number | null> {
  const tolerance = sizeTolerance(recipe);
  const { program, deviation } = withSizeDeviation(withSizeNear(rules, recipe, size), recipe, size);
  const columns = program.columns.map((column, i) => ({ ...column, cost: i === deviation ? 1 : 0 }));
  const absoluteGap = (SIZE_TIE_SHARE * tolerance) / recipe.massUnit;
  const found = await inTime(recipe, solveChanceConstrained(recipe, { ...program, columns, absoluteGap }));
  if (found === 'too long') return tolerance;
  return found && Math.abs(found.grams.reduce((sum, part) => sum + part, 0) - size);
}

/**
 * As `cheapest`, first in first out where that can be done; or 'too long': steps that must hit a fat range as narrow
 * as a point can be searched for ever. @throws ValidationError `blend.too-long` only where no source has steps
 */
export async function cheapestInTime(recipe: Recipe): Promise<Solved | null | 'too long'> {
  const constraints = hardConstraints(recipe);
  if (hasFifoOrder(recipe)) {
    const inTurn = await inTime(recipe, cheapest(recipe, withFifoOrder(constraints, recipe)), true);
    if (inTurn && inTurn !== 'too long') return inTurn;
  }
  return inTime(recipe, cheapest(recipe, constraints));
}

async function inTime<T>(recipe: Recipe, solving: Promise<T>, whole = false): Promise<T | 'too long'> {
  try {
    return await solving;
  } catch (problem) {
    const tooLong = problem instanceof ValidationError && problem.code === 'blend.too-long';
    if (tooLong && (whole || recipe.sources.some(isStepped))) return 'too long';
    throw problem;
  }
}

/** Grams by which a batch weighed in whole steps may miss its fixed size: half the finest step. */
export function sizeTolerance(recipe: Recipe): number {
  const steps = recipe.sources.flatMap((source) => (isStepped(source) ? [source.stepGrams as number] : []));
  return steps.length === 0 ? 0 : Math.min(...steps) / 2;
}

/** The batch is as near to the size as `sizeTolerance` allows, and weighs something. */
export function withSizeNear(program: Program, recipe: Recipe, size: number): Program {
  const tolerance = sizeTolerance(recipe);
  return withSize(program, recipe, Math.max(size - tolerance, size * 1e-6), size + tolerance);
}

/** The same program, its goal the least distance from the size. */
export function minimisingSizeDeviation(program: Program, recipe: Recipe, size: number): Program {
  const { program: open, deviation } = withSizeDeviation(program, recipe, size);
  return withGoal(open, recipe, [[deviation, 1]]);
}

/** With a further column `miss`, in mass units, that is never less than the distance from the size. */
function withSizeDeviation(
  program: Program,
  recipe: Recipe,
  size: number,
): { program: Program; deviation: number } {
  const deviation = program.columns.length;
  const goal = size / recipe.massUnit;
  const open = withColumn(program, { lower: 0, upper: Infinity, cost: 0 });
  const rows = [
    { terms: [[sizeColumn(recipe), 1], [deviation, 1]] as const, lower: goal, upper: Infinity },
    { terms: [[sizeColumn(recipe), 1], [deviation, -1]] as const, lower: -Infinity, upper: goal },
  ]; // prettier-ignore
  return { program: rows.reduce(withRow, open), deviation };
}

/** Total fat of the batch as terms, in mass units. */
export function fatTerms(recipe: Recipe): ReturnType<typeof massTerms> {
  return massTerms(recipe, (i) => recipe.sources[i]?.fat as number);
}
