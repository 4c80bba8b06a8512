/** The cheapest batch that satisfies every constraint. */
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
 * The cheapest batch, or null when there is none. Ties go to the smaller batch, then to the one the solver finds first;
 * sources are sorted by id, so the same request gives the same plan.
 *
 * A fixed size that whole steps cannot reach exactly is approximated as closely as possible, within half the finest step;
 * the fat limits are never widened. Mixed step sizes make the possible sizes very dense: there a size within a hundredth of
 * the finest step of the nearest counts as equal, and where that search takes too long, any size within half the finest
 * step.
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

/** Share of the finest step within which two deviations count as equal. */
const SIZE_TIE_SHARE = 0.01;

/** Smallest deviation from the size in grams; half the finest step where the search takes too long. */
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
 * As `cheapest`, in first-in-first-out order where feasible; or 'too long': with steps and a very narrow fat range the
 * search may never end. @throws ValidationError `blend.too-long` only where no source has steps
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

/** Grams by which a batch weighed in whole steps may deviate from its fixed size: half the finest step. */
export function sizeTolerance(recipe: Recipe): number {
  const steps = recipe.sources.flatMap((source) => (isStepped(source) ? [source.stepGrams as number] : []));
  return steps.length === 0 ? 0 : Math.min(...steps) / 2;
}

/** Constrains the size to within `sizeTolerance`, above 0. */
export function withSizeNear(program: Program, recipe: Recipe, size: number): Program {
  const tolerance = sizeTolerance(recipe);
  return withSize(program, recipe, Math.max(size - tolerance, size * 1e-6), size + tolerance);
}

/** The same program with the deviation from the size as its objective. */
export function minimisingSizeDeviation(program: Program, recipe: Recipe, size: number): Program {
  const { program: open, deviation } = withSizeDeviation(program, recipe, size);
  return withGoal(open, recipe, [[deviation, 1]]);
}

/** Adds a column `deviation`, in mass units, bounded below by the distance from the size. */
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
