/** The cheapest batch that meets every wish. */
import { isStepped, type Recipe } from './blend-input.ts';
import {
  groundRules,
  massTerms,
  sizeColumn,
  withColumn,
  withFat,
  withGoal,
  withRow,
  withSize,
} from './blend-model.ts';
import type { Program } from './blend-program.ts';
import { CoreProblem } from './problem.ts';
import { solveSure, type Solved } from './blend-sure.ts';

/**
 * Cheapest batch, or null when there is none. Among equally cheap ones the smaller batch, and among those the one
 * that the solver meets first; sources are in the order of their ids, so the same request gives the same plan.
 *
 * Size rule for scales: a fixed size that whole steps cannot hit exactly is met as nearly as they can, if that
 * misses it by no more than half the finest step; the fat limits are never widened.
 */
async function cheapest(recipe: Recipe): Promise<Solved | null> {
  const rules = withFat(groundRules(recipe), recipe, recipe.fat);
  const { size } = recipe;
  const exact = size === null ? rules : withSize(rules, recipe, size, size);
  const found = await solveSure(recipe, withGoal(exact, recipe, 'cost'));
  const play = sizeTolerance(recipe);
  if (found || size === null || play === 0) return found;

  const nearest = await solveSure(recipe, withLeastMiss(withSizeNear(rules, recipe, size), recipe, size));
  if (!nearest) return null;
  const hit = nearest.values[sizeColumn(recipe)] as number;
  const grams = hit * recipe.massUnit;
  const sized = withSize(rules, recipe, grams - play * HAIR, grams + play * HAIR);
  return solveSure(recipe, withGoal(sized, recipe, 'cost'));
}

/**
 * As `cheapest`, or 'too long': steps that must hit a fat range as narrow as a point can be searched for ever.
 * @throws CoreProblem `blend.too-long` only where no source has steps
 */
export async function cheapestInTime(recipe: Recipe): Promise<Solved | null | 'too long'> {
  try {
    return await cheapest(recipe);
  } catch (problem) {
    const tooLong = problem instanceof CoreProblem && problem.code === 'blend.too-long';
    if (tooLong && recipe.sources.some(isStepped)) return 'too long';
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
  return withSize(program, recipe, Math.max(size - play, size * HAIR), size + play);
}

/** Two batches as near the size as each other differ by far less than this part of half a step. */
const HAIR = 1e-6;

/** The same program, its goal the least distance from the size. */
export function withLeastMiss(program: Program, recipe: Recipe, size: number): Program {
  const miss = program.columns.length;
  const goal = size / recipe.massUnit;
  const open = withColumn(program, { lower: 0, upper: Infinity, cost: 0 });
  const rows = [
    { terms: [[sizeColumn(recipe), 1], [miss, 1]] as const, lower: goal, upper: Infinity },
    { terms: [[sizeColumn(recipe), 1], [miss, -1]] as const, lower: -Infinity, upper: goal },
  ]; // prettier-ignore
  return withGoal(rows.reduce(withRow, open), recipe, [[miss, 1]]);
}

/** Total fat of the batch as terms, in mass units. */
export function fatTerms(recipe: Recipe): ReturnType<typeof massTerms> {
  return massTerms(recipe, (i) => recipe.sources[i]?.fat as number);
}
