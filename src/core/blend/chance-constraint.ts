/** Solves a blend's program with its chance constraint "below this fat, with this probability". */
import { fatMass, gramsOf } from './batch.ts';
import { isStepped, type Recipe } from './input.ts';
import { massTerms, withRow, type Term } from './model.ts';
import { solve, type Program, type Solution } from './program.ts';
import { fatMassSlopes } from './fat-variance.ts';
import { normalQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';

/** Margin of the cuts below the limit, so that the last one satisfies the constraint exactly. */
const CUT_MARGIN = 1e-7;
const MAX_CUTS = 200;

export interface Solved extends Solution {
  readonly grams: readonly number[];
}

/** @returns null when nothing satisfies the rows */
export async function solveBlend(recipe: Recipe, program: Program): Promise<Solved | null> {
  const solution = await solve(program);
  if (!solution) return null;
  const values = mixesStepsAndContinuous(recipe, program)
    ? await refineContinuous(program, solution)
    : solution.values;
  return { ...solution, values, grams: gramsOf(recipe, values) };
}

/** Whether the program mixes integer steps with continuous sources. */
function mixesStepsAndContinuous(recipe: Recipe, program: Program): boolean {
  const stepped = program.columns.some((column) => column.whole);
  return stepped && recipe.sources.some((source) => !source.useAll && !isStepped(source));
}

/**
 * The solver's integers are integers to nine digits only. After rounding, the continuous columns are solved again; where
 * that is infeasible the first solution stands.
 */
async function refineContinuous(program: Program, solution: Solution): Promise<readonly number[]> {
  const columns = program.columns.map((column, i) => {
    const steps = Math.round(solution.values[i] as number);
    return column.whole ? { ...column, lower: steps, upper: steps, whole: false } : column;
  });
  return (await solve({ ...program, columns }))?.values ?? solution.values;
}

/**
 * As `solveBlend`, with mean + z·sd of the batch's fat at or below the limit (or above it by at most the mass in column
 * `slackColumn`). The sources' fat is taken as jointly normal, so with xᵢ grams of each and Σ the covariance of
 * their fat
 *
 *     Σ fatᵢ·xᵢ + z·√(xᵀΣx) ≤ limit·Σ xᵢ
 *
 * is a second-order cone constraint. It is solved by outer approximation (Kelley's cutting planes, J. SIAM 8:703, 1960):
 * the root is convex, so each round adds its tangent at the current batch, which cuts off that batch but no feasible one.
 * The result is therefore optimal, not merely feasible; the loop ends when the batch itself satisfies the constraint. @throws ValidationError `blend.too-long` after 200 rounds
 */
export async function solveChanceConstrained(
  recipe: Recipe,
  start: Program,
  slackColumn?: number,
): Promise<Solved | null> {
  const { sureBelow } = recipe;
  if (!sureBelow) return solveBlend(recipe, start);
  const z = normalQuantile(sureBelow.probability);
  const cut = (program: Program, limit: number, slopes: (index: number) => number): Program => {
    const terms: Term[] = massTerms(recipe, (i) => (recipe.sources[i]?.fat as number) + slopes(i) - limit);
    return withRow(program, {
      terms: slackColumn === undefined ? terms : [...terms, [slackColumn, -1]],
      lower: -Infinity,
      upper: 0,
    });
  };
  let program = cut(start, sureBelow.fat, () => 0);
  for (let round = 0; round < MAX_CUTS; round++) {
    const found = await solveBlend(recipe, program);
    if (!found) return null;
    const { mean, sd } = fatMass(recipe, found.grams);
    const total = found.grams.reduce((sum, part) => sum + part, 0);
    const slackGrams =
      slackColumn === undefined ? 0 : (found.values[slackColumn] as number) * recipe.massUnit;
    const spread = z * sd;
    if (spread === 0 || mean + spread <= sureBelow.fat * total + slackGrams) return found;
    const slopes = fatMassSlopes(recipe, found.grams);
    program = cut(program, sureBelow.fat - CUT_MARGIN, (i) => (z * (slopes[i] as number)) / sd);
  }
  throw new ValidationError('blend.too-long');
}
