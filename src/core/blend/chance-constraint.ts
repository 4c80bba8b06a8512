/** Solves a blend's program, with the promise "below this fat, with this probability" kept where it is asked. */
import { fatMass, gramsOf } from './batch.ts';
import { isStepped, type Recipe } from './input.ts';
import { massTerms, withRow, type Term } from './model.ts';
import { solve, type Program, type Solution } from './program.ts';
import { fatMassSlopes } from './fat-variance.ts';
import { normalQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';

/** The cuts aim this much lower than asked, so that the last one leaves the promise kept in full. */
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

/** Whether steps are mixed with sources that are weighed out freely. */
function mixesStepsAndContinuous(recipe: Recipe, program: Program): boolean {
  const stepped = program.columns.some((column) => column.whole);
  return stepped && recipe.sources.some((source) => !source.useAll && !isStepped(source));
}

/**
 * The solver's whole numbers are whole only to nine digits. Made truly whole they shift the batch by a hair, so
 * the loose parts are fitted to them again; where that hair alone makes it impossible, the answer stands.
 */
async function refineContinuous(program: Program, solution: Solution): Promise<readonly number[]> {
  const columns = program.columns.map((column, i) => {
    const steps = Math.round(solution.values[i] as number);
    return column.whole ? { ...column, lower: steps, upper: steps, whole: false } : column;
  });
  return (await solve({ ...program, columns }))?.values ?? solution.values;
}

/**
 * As `solveBlend`, and mean + z·sd of the batch's fat stays at or below the promised fat (or misses it by at most
 * the mass in column `off`). The sources' fat is taken as jointly normal, so with xᵢ grams of each and Σ the covariance of
 * their fat
 *
 *     Σ fatᵢ·xᵢ + z·√(xᵀΣx) ≤ limit·Σ xᵢ
 *
 * is a cone, not a row. It is met by outer approximation (Kelley's cutting planes, J. SIAM 8:703, 1960): the root
 * never lies below its tangent, so each round adds the tangent at the batch found, which forbids that batch but no
 * batch that keeps the promise. The answer is therefore the cheapest, not merely a safe one; it ends when the
 * batch itself keeps the promise in full. @throws ValidationError `blend.too-long` after 200 rounds
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
