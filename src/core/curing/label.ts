/** The ingredients of a label: descending by weight as they went in, each blend with its sub-ingredients. */
import { ValidationError } from '../values/validation-error.ts';
import { ingredientOf, requireIngredients, type Library } from './ingredients.ts';

export interface LabelPart {
  readonly name: string;
  /** Sub-ingredients in the order of the packet; `unknown` where it was not read. */
  readonly parts: readonly LabelPart[] | 'unknown';
}

export interface LabelLine extends LabelPart {
  readonly grams: number;
}

/** Something that went in: meat by its name, or an ingredient of the library. */
export type WentIn =
  | { readonly meat: string; readonly grams: number }
  | { readonly ingredient: string; readonly grams: number };

/**
 * One line for each name, what goes in twice together, the heaviest first and equal ones by name; what weighs nothing is left out.
 * Weights are those that went in: heat takes water, not a place in the list.
 * @throws ValidationError `grams.negative`, `label.empty`, and those of `requireIngredients`
 */
export function labelLines(wentIn: readonly WentIn[], library: Library): LabelLine[] {
  requireIngredients(
    wentIn.flatMap((one) => ('ingredient' in one ? [one.ingredient] : [])),
    library,
  );
  const lines = new Map<string, LabelLine>();
  for (const [i, one] of wentIn.entries()) {
    if (!(one.grams >= 0 && Number.isFinite(one.grams)))
      throw new ValidationError('grams.negative', `wentIn[${i}].grams`);
    if (one.grams === 0) continue;
    const part = 'meat' in one ? { name: one.meat, parts: [] } : partOf(one.ingredient, library);
    // Two blends of one name need not hold the same: then each keeps its line.
    const key = JSON.stringify(part);
    lines.set(key, { ...part, grams: (lines.get(key)?.grams ?? 0) + one.grams });
  }
  if (lines.size === 0) throw new ValidationError('label.empty', 'wentIn');
  return [...lines.values()].sort((a, b) => b.grams - a.grams || (a.name < b.name ? -1 : 1));
}

function partOf(id: string, library: Library): LabelPart {
  const { name, parts } = ingredientOf(id, library);
  return { name, parts: parts === null ? 'unknown' : parts.map((part) => partOf(part, library)) };
}
