/** How an animal's part of a grind became products: each with its finished weight, its recipe, and the trim that it took. */
import type { WeighingRecord } from '../../book/records/weighings.ts';
import type { MadeOf } from '../../core/pricing/lines.ts';
import type { Session } from '../session/session.ts';

/**
 * The animal's own trim goes into each product by the meat that its batch of the smokehouse was started with; what is
 * left of the grind goes into the other packages by their weight. What no package holds yet is charged to none.
 * @param share of the animal in everything that was packed of the grind
 * @param rows standing weights of the grind
 */
export function madeOfGrind(
  session: Session,
  grind: { id: number; animalId: number; share: number },
  rows: readonly WeighingRecord[],
): (MadeOf & { product: string })[] {
  const packed = rows.filter(({ stage, product }) => stage === 'packed' && product !== null);
  if (packed.length === 0) return [];
  const into = rows.filter(({ stage }) => stage === 'grinder');
  const whole = sum(into);
  const trim = sum(into.filter((row) => row.animal_id === grind.animalId && row.part === 'trim'));
  const batches = session.book.madeWeights.packedFrom(grind.id);
  const recipeOf = new Map(batches.map((one) => [one.weighing_id, one]));
  const blocks = new Map(batches.map(({ id, block }) => [id, block ?? 0]));
  const started = [...blocks.values()].reduce((total, block) => total + block, 0);
  const groups = Map.groupBy(packed, ({ id }) => recipeOf.get(id)?.id ?? null);
  return [...groups].flatMap(([madeId, own]) => {
    const block = madeId === null ? Math.max(0, whole - started) : (blocks.get(madeId) ?? 0);
    const grams = sum(own);
    const recipe = own[0] && recipeOf.get(own[0].id)?.recipe_id;
    return [...Map.groupBy(own, ({ product }) => product ?? '')].map(([product, of]) => ({
      product,
      recipe: recipe === undefined ? null : String(recipe),
      grams: sum(of) * grind.share,
      trimGrams: whole > 0 && grams > 0 ? ((trim * block) / whole) * (sum(of) / grams) : 0,
    }));
  });
}

function sum(rows: readonly WeighingRecord[]): number {
  return rows.reduce((total, { grams }) => total + grams, 0);
}
