/** What the shop's own batches teach of the loss from stuffing to packing. */
import type { Book } from '../../book/book.ts';
import type { MadeSums } from '../../book/records/smokehouse/made-weights.ts';
import { learnLoss, type LossBatch, type LossModel } from '../../core/loss/loss.ts';
import type { LossLesson } from '../../core/loss/siblings.ts';
import { LOSS_KINDS } from '../supplied/smokehouse.ts';

export interface LossKnowledge {
  model: LossModel;
  /** The batches that it rests on, in the order of the model. */
  batches: readonly (MadeSums & { in_grams: number; packed: number })[];
  lots: readonly LossBatch[];
}

/** The topics that weights of made batches and their recipes belong to. */
const TOPICS = ['made', 'grind', 'recipe'] as const;

/** What each other shop teaches. */
type OtherShops = readonly (readonly LossLesson[])[];

/** Learned again once a made batch, a grind or a recipe changed, or other shops teach something else. */
export function lossLearning(book: Book): (shops: OtherShops) => LossKnowledge {
  let known: { version: string; shops: OtherShops; value: LossKnowledge } | undefined;
  return (shops) => {
    const version = TOPICS.map((topic) => book.changes.version(topic)).join(' ');
    if (known?.version !== version || known.shops !== shops)
      known = { version, shops, value: lossKnowledge(book, book.madeWeights.allSums(), shops) };
    return known.value;
  };
}

/**
 * Batches of finished grinds: of an open one more may be packed. What is packed raw may never have been weighed stuffed; then meat and
 * ingredients count. One that weighs more than went in, within the tolerance of two scales, lost nothing.
 */
export function lossKnowledge(book: Book, sums: readonly MadeSums[], shops: OtherShops = []): LossKnowledge {
  const kinds = new Map(
    book.recipes.all().map(({ id, body }) => [id, (JSON.parse(body) as { lossKind: string }).lossKind]),
  );
  const batches = sums.flatMap((one) => {
    const kind = kinds.get(one.recipe_id);
    if (one.grind !== 'done' || one.packed === null || one.block === null) return [];
    if (!LOSS_KINDS.some(({ code }) => code === kind)) return [];
    return [{ ...one, in_grams: one.stuffed ?? one.block + one.added, packed: one.packed }];
  });
  const lots = batches.map(({ recipe_id: recipe, in_grams: inGrams, packed }) => ({
    product: String(recipe),
    kind: kinds.get(recipe) ?? '',
    inGrams,
    outGrams: Math.min(inGrams, packed),
  }));
  return { model: learnLoss(lots, LOSS_KINDS, shops), batches, lots };
}
