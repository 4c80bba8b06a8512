/** The cheapest batch that meets every wish. */
import { SLACK } from './batch.ts';
import { hasLoose, isStepped, type Recipe } from './input.ts';
import {
  groundRules,
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
import { solveSure, type Solved } from './chance-constraint.ts';
import { hasTurns, withTurns } from './turns.ts';

/**
 * Cheapest batch, or null when there is none. Among equally cheap ones the smaller batch, and among those the one
 * that the solver meets first; sources are in the order of their ids, so the same request gives the same plan.
 *
 * Size rule for scales: a fixed size that whole steps cannot hit exactly is met as nearly as they can, if that
 * misses it by no more than half the finest step; the fat limits are never widened. Steps of several kinds make sizes
 * very dense: there a size within a hundredth of the finest step of the nearest is as near, and where the search among
 * those takes too long, any size within half the finest step.
 */
async function cheapest(recipe: Recipe, ground: Program): Promise<Solved | null> {
  const rules = withFat(ground, recipe, recipe.fat);
  const { size } = recipe;
  const within = (low: number, high: number): Promise<Solved | null> =>
    solveSure(recipe, withGoal(withSize(rules, recipe, low, high), recipe, 'cost'));
  if (size === null) return solveSure(recipe, withGoal(rules, recipe, 'cost'));
  const around = (off: number): Promise<Solved | null> =>
    within(Math.max(size - off, size * SLACK), size + off);
  const play = sizeTolerance(recipe);
  const grid = sizesInSteps(recipe, size);
  if (grid) return grid.low > grid.high ? null : within(grid.low - grid.step / 4, grid.high + grid.step / 4);
  const exact = play === 0 || hasLoose(recipe) ? await within(size, size) : null;
  if (exact || play === 0) return exact;
  const miss = await leastMiss(recipe, rules, size);
  if (miss === null) return null;
  const near = await inTime(recipe, around(Math.min(play, miss + AS_NEAR * 2 * play)));
  return near === 'too long' ? around(play) : near;
}

/** Part of the finest step by which one size may be farther off than another and count as near. */
const AS_NEAR = 0.01;

/** Grams by which the nearest batch misses the size; half the finest step where finding out takes too long. */
async function leastMiss(recipe: Recipe, rules: Program, size: number): Promise<number | null> {
  const play = sizeTolerance(recipe);
  const { program, miss } = withMiss(withSizeNear(rules, recipe, size), recipe, size);
  const columns = program.columns.map((column, i) => ({ ...column, cost: i === miss ? 1 : 0 }));
  const nearEnough = (AS_NEAR * play) / recipe.massUnit;
  const found = await inTime(recipe, solveSure(recipe, { ...program, columns, nearEnough }));
  if (found === 'too long') return play;
  return found && Math.abs(found.grams.reduce((sum, part) => sum + part, 0) - size);
}

/**
 * As `cheapest`, first in first out where that can be done; or 'too long': steps that must hit a fat range as narrow
 * as a point can be searched for ever. @throws ValidationError `blend.too-long` only where no source has steps
 */
export async function cheapestInTime(recipe: Recipe): Promise<Solved | null | 'too long'> {
  const ground = groundRules(recipe);
  if (hasTurns(recipe)) {
    const inTurn = await inTime(recipe, cheapest(recipe, withTurns(ground, recipe)), true);
    if (inTurn && inTurn !== 'too long') return inTurn;
  }
  return inTime(recipe, cheapest(recipe, ground));
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
  const play = sizeTolerance(recipe);
  return withSize(program, recipe, Math.max(size - play, size * 1e-6), size + play);
}

/** The same program, its goal the least distance from the size. */
export function withLeastMiss(program: Program, recipe: Recipe, size: number): Program {
  const { program: open, miss } = withMiss(program, recipe, size);
  return withGoal(open, recipe, [[miss, 1]]);
}

/** With a further column `miss`, in mass units, that is never less than the distance from the size. */
function withMiss(program: Program, recipe: Recipe, size: number): { program: Program; miss: number } {
  const miss = program.columns.length;
  const goal = size / recipe.massUnit;
  const open = withColumn(program, { lower: 0, upper: Infinity, cost: 0 });
  const rows = [
    { terms: [[sizeColumn(recipe), 1], [miss, 1]] as const, lower: goal, upper: Infinity },
    { terms: [[sizeColumn(recipe), 1], [miss, -1]] as const, lower: -Infinity, upper: goal },
  ]; // prettier-ignore
  return { program: rows.reduce(withRow, open), miss };
}

/** Total fat of the batch as terms, in mass units. */
export function fatTerms(recipe: Recipe): ReturnType<typeof massTerms> {
  return massTerms(recipe, (i) => recipe.sources[i]?.fat as number);
}
