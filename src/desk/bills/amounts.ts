/** The billable amounts of an animal: hanging weight, output of its grinds, added fat, packages, extras. */
import { byName } from '../../core/values/by-name.ts';
import type { AnimalRow } from '../../book/records/animals.ts';
import type { Amounts, MadeOf } from '../../core/pricing/lines.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { ownersOf } from '../animal/owners.ts';
import { listedProducts, productLookup } from '../pricing/product-lookup.ts';
import type { Session } from '../session/session.ts';
import type { BillLack } from '../contract/contract.ts';
import { baseGrams } from '../learning/take-home.ts';
import { madeOfGrind } from './made-of.ts';

export interface Weighed {
  amounts: Amounts;
  lacks: BillLack[];
}

/**
 * The amounts by current weights. A batch counts by the lean put in, as its packages are divided. Products are listed
 * separately, including packages from the Table; the prices determine which line charges each. Hours come from
 * recorded work, extras from the orders.
 */
export function weighedAmounts(session: Session, animal: AnimalRow): Weighed {
  const sums = session.book.weighings.sums(animal.id);
  const hanging = baseGrams({
    brought: animal.brought,
    hanging: sums?.hanging ?? null,
    received: sums?.received ?? null,
  });
  const grinds = session.book.batches.ofAnimal(animal.id);
  const products = byName<number>();
  const ground = new Set<string>();
  const fats: Record<string, number> = {};
  let groundGrams = 0;
  let packages = 0;
  const add = (record: Record<string, number>, name: string, grams: number): void => {
    record[name] = (record[name] ?? 0) + grams;
  };
  const made = byName<MadeOf[]>();
  const tell = ({ product, ...one }: MadeOf & { product: string }): void =>
    void (made[product] ??= []).push(one);
  for (const row of session.book.weighings.ofAnimal(animal.id)) {
    if (row.stage !== 'packed' || row.void_at !== null) continue;
    packages += row.count ?? 0;
    if (!row.product) continue;
    add(products, row.product, row.grams);
    tell({ product: row.product, recipe: null, grams: row.grams, trimGrams: null });
  }
  for (const { id } of grinds) {
    const { share, packages: ownPackages } = shareOf(session, id, animal.ticket);
    packages += ownPackages;
    const standing = session.book.weighings.ofBatch(id).filter(({ void_at }) => void_at === null);
    madeOfGrind(session, { id, animalId: animal.id, share }, standing).forEach(tell);
    for (const row of standing) {
      const grams = row.grams * share;
      if (row.stage === 'packed' && row.product) {
        add(products, row.product, grams);
        ground.add(row.product);
      } else if (row.stage === 'packed') groundGrams += grams;
      else if (row.part === 'fat added') add(fats, sourceOf(session, row.fat_lot_id), grams);
    }
  }
  const trimLeft = (sums?.trim ?? 0) - (sums?.trim_ground ?? 0);
  const { extras, ...ordered } = orderedOf(session, animal.id);
  for (const product of ordered.ground) ground.add(product);
  const unlisted = Object.fromEntries([...ground].map((product) => [product, 'unlisted' as const]));
  return {
    amounts: {
      species: animal.species,
      brought: animal.brought,
      hangingGrams: hanging ?? 0,
      groundGrams,
      ...listedProducts({ products, kinds: unlisted, made }, productLookup(session)),
      fats,
      packages,
      minutes: minutesOf(session, animal.id),
      extras,
    },
    lacks: [
      ...(hanging === null ? ['hanging' as const] : []),
      ...(trimLeft > ROUNDING_TOLERANCE_GRAMS ? ['trim-waiting' as const] : []),
      ...(grinds.some(({ state }) => state === 'open') ? ['open-batch' as const] : []),
      ...(packages === 0 ? ['nothing-packed' as const] : []),
    ],
  };
}

/** Ground products and extras of the orders. */
function orderedOf(session: Session, animalId: number) {
  const { grindProduct, alsoGround, pricedExtras } = instructionsOf(session, animalId);
  return { ground: [grindProduct, ...alsoGround.map(({ product }) => product)], extras: pricedExtras };
}

/** Recorded minutes by line code. */
function minutesOf(session: Session, animalId: number): Record<string, number> {
  return Object.fromEntries(
    session.book.workTimes.minutes(animalId).map(({ line_code, minutes }) => [line_code, minutes]),
  );
}

function shareOf(session: Session, batchId: number, ticket: string): { share: number; packages: number } {
  const owners = ownersOf(session, batchId);
  const all = owners.reduce((total, { leanGrams }) => total + leanGrams, 0);
  const own = owners.find((owner) => owner.ticket === ticket);
  return { share: all > 0 ? (own?.leanGrams ?? 0) / all : 0, packages: own?.packages ?? 0 };
}

function sourceOf(session: Session, lotId: number | null): string {
  return (lotId === null ? undefined : session.book.fat.get(lotId)?.source) ?? '';
}
