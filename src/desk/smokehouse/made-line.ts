/** One line about a made batch, as lists show it. */
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import { batchOf } from '../animal/closed.ts';
import type { MadeLine } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { recipeOf, stateOf, sumsOf } from './made-batch.ts';
import { proofOf } from './proof.ts';

export function madeLine(session: Session, made: MadeRow): MadeLine {
  const sums = sumsOf(session, made.id);
  const { name: recipe, product, body } = recipeOf(session, made);
  return {
    id: made.id,
    name: made.name,
    recipeId: made.recipe_id,
    recipe,
    product,
    batchId: made.batch_id,
    batch: batchOf(session, made.batch_id).name,
    tickets: session.book.batches.animals(made.batch_id).map(({ ticket }) => ticket),
    state: stateOf(sums),
    finish: body.finish,
    blockGrams: sums.block,
    addedGrams: sums.added,
    stuffedGrams: sums.stuffed,
    cookedGrams: sums.cooked,
    packedGrams: sums.packed,
    packages: sums.packages,
    proof: proofOf(session, made, body),
    at: made.at,
    by: made.by,
  };
}
