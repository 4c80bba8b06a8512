/** Divides what was packed of a made batch among its owners, exactly. */
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import type { MadePackageRow } from '../../book/records/smokehouse/made-weights.ts';
import { shareProducts } from '../../core/loss/share-output.ts';
import { splitRows } from '../../core/values/split.ts';
import { readingStepGrams } from '../../core/values/reading.ts';
import type { MadeOwner } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

/** Of weights in several units, grams: finer than any scale. */
const FINEST = 0.001;

/**
 * By the owner's meat in the grind. Several products of one grind are divided one after the other, and what one rounds away from an owner
 * the next makes up for; the parts of each product add up to exactly what was packed of it.
 */
export function madeOwners(session: Session, made: MadeRow): MadeOwner[] {
  const animals = session.book.batches.animals(made.batch_id);
  const rows = session.book.weighings
    .ofBatch(made.batch_id)
    .filter(({ stage, void_at }) => stage === 'grinder' && void_at === null);
  const meat = animals.map(({ id }) =>
    rows.filter((row) => row.animal_id === id).reduce((sum, { grams }) => sum + grams, 0),
  );
  const all = meat.reduce((sum, grams) => sum + grams, 0);
  const total = rows.reduce((sum, { grams }) => sum + grams, 0);
  const products = session.book.madeWeights.sumsOfBatch(made.batch_id);
  const at = products.findIndex(({ id }) => id === made.id);
  const own = products[at];
  const portion = total > 0 ? (own?.block ?? total) / total : 0;
  const nothing = meat.map(() => 0);
  const packs = products.map(({ id }) => session.book.madeWeights.packages(id));
  const step = stepOf(packs.flat());
  const grams = all > 0 ? shareGrams(packs, step, meat)[at] : undefined;
  const counts =
    all > 0
      ? splitRows(
          products.map(({ packages }) => packages),
          meat,
        )[at]
      : undefined;
  return animals.map(({ id, ticket, hunter }, i) => ({
    animalId: id,
    ticket,
    hunter,
    meatGrams: (meat[i] ?? 0) * portion,
    share: all > 0 ? (meat[i] ?? 0) / all : 0,
    packedGrams: (grams ?? nothing)[i] ?? 0,
    packages: (counts ?? nothing)[i] ?? 0,
  }));
}

/** The finest step of the packed weights where all are in one unit. */
function stepOf(packs: readonly Pick<MadePackageRow, 'unit' | 'decimals'>[]): number {
  const [first] = packs;
  if (!first || packs.some(({ unit }) => unit !== first.unit)) return FINEST;
  const decimals = packs.reduce((most, one) => Math.max(most, one.decimals), 0);
  return readingStepGrams({ unit: first.unit, decimals });
}

function shareGrams(
  packs: readonly (readonly { grams: number }[])[],
  step: number,
  meat: readonly number[],
): number[][] {
  const totals = packs.map((of) => of.reduce((sum, { grams }) => sum + grams, 0));
  const rounded = totals.map((grams) => Math.round(grams / step) * step);
  return shareProducts(rounded, step, meat).map((row) => row.map(({ grams }) => grams));
}
