import type { Recipe } from './input.ts';
import { sizeColumn, withGoal, type Term } from './model.ts';
import type { Program } from './program.ts';
import { solveChanceConstrained, type Solved } from './chance-constraint.ts';
import { ValidationError } from '../values/validation-error.ts';

const CONVERGENCE_TOLERANCE = 1e-10;
const MAX_ITERATIONS = 50;

/**
 * Minimises `amount` as a share of the batch size, e.g. the leanest batch of an open size. This is a linear-fractional
 * program: Dinkelbach's method (Management Science 13:492, 1967) minimises amount − share·size for the best share so far
 * until it no longer improves, in a handful of rounds, also with whole steps. The program must keep the size above 0.
 * `slackColumn` is passed on to the chance constraint; `promise: false` drops that constraint. @returns null when nothing satisfies the rows @throws ValidationError `blend.too-long`
 */
export async function leastShare(
  recipe: Recipe,
  program: Program,
  amount: readonly Term[],
  options: { promise: boolean; slackColumn?: number } = { promise: false },
): Promise<(Solved & { share: number }) | null> {
  const relaxed = options.promise ? recipe : { ...recipe, sureBelow: undefined };
  let share = 0;
  for (let round = 0; round < MAX_ITERATIONS; round++) {
    const goal: Term[] = [...amount, [sizeColumn(recipe), -share]];
    const found = await solveChanceConstrained(relaxed, withGoal(program, recipe, goal), options.slackColumn);
    if (!found) return null;
    const size = found.values[sizeColumn(recipe)] as number;
    const better =
      amount.reduce((sum, [i, coefficient]) => sum + coefficient * (found.values[i] as number), 0) / size;
    if (round > 0 && better >= share - CONVERGENCE_TOLERANCE) return { ...found, share: better };
    share = better;
  }
  throw new ValidationError('blend.too-long');
}
