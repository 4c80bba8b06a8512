/** First in, first out: among sources of one cost the oldest is used up before the next is opened. */
import type { Recipe } from './input.ts';
import { withColumn, withRow } from './model.ts';
import type { Program } from './program.ts';

/** Whether any source has a predecessor. */
export function hasFifoOrder(recipe: Recipe): boolean {
  return recipe.sources.some((_, index) => ahead(recipe, index).length > 0);
}

/**
 * Adds a binary column "opened" for each source with a predecessor: the source is 0 unless opened, and opened requires all
 * of the direct predecessor (its whole steps where it has steps). Rows for all pairs instead took half a minute for 300
 * lots.
 */
export function withFifoOrder(program: Program, recipe: Recipe): Program {
  return recipe.sources.reduce((all, _, index) => {
    const before = justBefore(recipe, index, (other) => upperOf(program, other) > 0);
    if (before.length === 0) return all;
    const opened = all.columns.length;
    const waiting = withRow(withColumn(all, { lower: 0, upper: 1, cost: 0, whole: true }), {
      terms: [[index, 1], [opened, -upperOf(program, index)]],
      lower: -Infinity,
      upper: 0,
    }); // prettier-ignore
    return before.reduce(
      (rows, other) =>
        withRow(rows, {
          terms: [[other, 1], [opened, -upperOf(program, other)]],
          lower: 0,
          upper: Infinity,
        }), // prettier-ignore
      waiting,
    );
  }, program);
}

/** Sources of the same cost with an earlier position. Mandatory sources have no predecessors and are none. */
function ahead(recipe: Recipe, index: number): number[] {
  const source = recipe.sources[index];
  if (source?.queuePosition === undefined || source.useAll) return [];
  const { queuePosition, costPerKg } = source;
  return recipe.sources.flatMap((other, i) =>
    other.queuePosition !== undefined &&
    other.queuePosition < queuePosition &&
    other.costPerKg === costPerKg &&
    !other.useAll
      ? [i]
      : [],
  );
}

/** Direct predecessors: of the earlier sources with stock, those with the latest position. */
function justBefore(recipe: Recipe, index: number, gives: (other: number) => boolean): number[] {
  const before = ahead(recipe, index).filter(gives);
  const queuePositionOf = (other: number): number => recipe.sources[other]?.queuePosition ?? -Infinity;
  const latest = Math.max(...before.map(queuePositionOf));
  return before.filter((other) => queuePositionOf(other) === latest);
}

function upperOf(program: Program, index: number): number {
  return program.columns[index]?.upper ?? 0;
}
