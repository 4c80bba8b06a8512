/** What an animal is billed for: hanging weight, what came out of its grinds, fat added, packages, extras. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { Amounts, PriceLine } from '../../core/pricing/price.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { ownersOf } from '../animal/owners.ts';
import { productCards } from '../pricing/products-shelf.ts';
import type { Session } from '../session/session.ts';
import type { BillLack } from '../contract/contract.ts';
import { baseGrams } from '../learning/take-home.ts';

export interface Weighed {
  amounts: Amounts;
  lacks: BillLack[];
}

/** Asked beside what was weighed. */
export interface Beside {
  hours?: number | undefined;
  /** Codes of one-off prices; those of the instructions when left out. */
  extras?: readonly string[] | undefined;
}

/**
 * The amounts as they are weighed now. A batch counts by the lean put in, as its packages are shared; packages weighed at
 * the Table count as grind where their product is one. A product that has a price of its own is charged by that and not as
 * plain grind.
 */
export function weighedAmounts(
  session: Session,
  animal: AnimalRow,
  lines: readonly PriceLine[],
  beside: Beside,
): Weighed {
  const sums = session.book.weighings.sums(animal.id);
  const hanging = baseGrams({
    brought: animal.brought,
    hanging: sums?.hanging ?? null,
    received: sums?.received ?? null,
  });
  const grinds = session.book.batches.ofAnimal(animal.id);
  const priced = new Set(lines.filter(({ basis }) => basis === 'product').map(({ product }) => product));
  const ground = groundProducts(session, animal.id);
  const products: Record<string, number> = {};
  const fats: Record<string, number> = {};
  let groundGrams = 0;
  let packages = 0;
  const add = (record: Record<string, number>, name: string, grams: number): void => {
    record[name] = (record[name] ?? 0) + grams;
  };
  for (const row of session.book.weighings.ofAnimal(animal.id)) {
    if (row.stage !== 'packed' || row.void_at !== null) continue;
    packages += row.count ?? 0;
    if (priced.has(row.product ?? '')) add(products, row.product ?? '', row.grams);
    else if (ground.has(row.product ?? '')) groundGrams += row.grams;
  }
  for (const { id } of grinds) {
    const { share, packages: mine } = shareOf(session, id, animal.ticket);
    packages += mine;
    for (const row of session.book.weighings.ofBatch(id)) {
      if (row.void_at !== null) continue;
      const grams = row.grams * share;
      if (row.stage === 'packed' && priced.has(row.product ?? '')) add(products, row.product ?? '', grams);
      else if (row.stage === 'packed') groundGrams += grams;
      else if (row.part === 'fat added') add(fats, sourceOf(session, row.fat_lot_id), grams);
    }
  }
  const trimLeft = (sums?.trim ?? 0) - (sums?.trim_ground ?? 0);
  return {
    amounts: {
      species: animal.species,
      brought: animal.brought,
      hangingGrams: hanging ?? 0,
      groundGrams,
      products,
      fats,
      packages,
      hours: beside.hours ?? 0,
      extras: beside.extras ?? instructionsOf(session, animal.id).extras,
    },
    lacks: [
      ...(hanging === null ? ['hanging' as const] : []),
      ...(trimLeft > ROUNDING_TOLERANCE_GRAMS ? ['trim-waiting' as const] : []),
      ...(grinds.some(({ state }) => state === 'open') ? ['open-batch' as const] : []),
      ...(packages === 0 ? ['nothing-packed' as const] : []),
    ],
  };
}

/** Names of what is ground: by the shop's list of products and by what this hunter asked for. */
function groundProducts(session: Session, animalId: number): Set<string> {
  const { grindProduct, alsoGround } = instructionsOf(session, animalId);
  const listed = productCards(session).filter(({ kind }) => kind === 'grind' || kind === 'sausage');
  return new Set([
    grindProduct,
    ...alsoGround.map(({ product }) => product),
    ...listed.map(({ name }) => name),
  ]);
}

function shareOf(session: Session, batchId: number, ticket: string): { share: number; packages: number } {
  const owners = ownersOf(session, batchId);
  const all = owners.reduce((total, { leanGrams }) => total + leanGrams, 0);
  const mine = owners.find((owner) => owner.ticket === ticket);
  return { share: all > 0 ? (mine?.leanGrams ?? 0) / all : 0, packages: mine?.packages ?? 0 };
}

function sourceOf(session: Session, lotId: number | null): string {
  return (lotId === null ? undefined : session.book.fat.get(lotId)?.source) ?? '';
}
