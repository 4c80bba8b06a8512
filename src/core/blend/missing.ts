import { type Recipe } from './input.ts';
import { RELATIVE_TOLERANCE } from './batch.ts';
import { hardConstraints, withFat, withGoal, withSize, type Term } from './model.ts';
import { solve, type Column, type Program, type Row } from './program.ts';

/**
 * The least total extra weight that makes size and fat feasible: each source, except the mandatory ones, gets an
 * extra column, and the sum of the extras is minimised. Empty when no amount suffices. Scale steps are ignored:
 * round up to the next step.
 */
export async function missingGrams(recipe: Recipe): Promise<{ id: string; grams: number }[]> {
  const constraints = hardConstraints(recipe);
  const unlimited = constraints.columns.map((column, i) =>
    recipe.sources[i]?.useAll ? column : { ...column, upper: Infinity },
  );
  const extras: { id: string; column: number }[] = [];
  const columns: Column[] = [...unlimited];
  const rows: Row[] = [...constraints.rows];
  recipe.sources.forEach((source, i) => {
    if (source.useAll) return;
    extras.push({ id: source.id, column: columns.length });
    const beyond: Term[] = [
      [i, (recipe.columnGrams[i] as number) / recipe.massUnit],
      [columns.length, -1],
    ];
    columns.push({ lower: 0, upper: Infinity, cost: 0 });
    rows.push({ terms: beyond, lower: -Infinity, upper: source.availableGrams / recipe.massUnit });
  });
  let program: Program = withFat({ columns, rows }, recipe, recipe.fat);
  if (recipe.size !== null) program = withSize(program, recipe, recipe.size, recipe.size);
  const goal: Term[] = extras.map(({ column }) => [column, 1]);
  const found = await solve(withGoal(program, recipe, goal));
  if (!found) return [];
  return extras
    .map(({ id, column }) => ({ id, grams: (found.values[column] as number) * recipe.massUnit }))
    .filter(({ grams }) => grams > RELATIVE_TOLERANCE * recipe.massUnit);
}
