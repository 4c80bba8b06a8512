/** What follows from the model's recipes, made batches and loads. Plain loops. */
import { byWeight } from './step.ts';
import type { Batch } from './state.ts';
import type { Load, Made } from './smokehouse-state.ts';
import { GRAMS, type Shop } from './shop.ts';

/** Two scales agree within it. */
const AS_WEIGHED = 1.02;
/** The official ceiling of ingoing nitrite in ground products: 1/4 oz of nitrite on 100 lb (9 CFR 424.21). */
const MOST_PPM = 156.25;
/** Amounts are weighed in whole grams, so a figure this near the ceiling may fall on either side. */
const NEAR_PPM = 1.5;

const sum = (rows: readonly { grams: number; voided: boolean }[]): number | null => {
  const standing = rows.filter(({ voided }) => !voided);
  return standing.length === 0 ? null : standing.reduce((total, { grams }) => total + grams, 0);
};

export const addedOf = (made: Made): number => sum(made.weighed) ?? 0;
export const stageOf = (made: Made, stage: 'stuffed' | 'cooked'): number | null =>
  sum(made.stages.filter((one) => one.stage === stage));

/** Packages that count, grams; null for none. */
export function packedOf(shop: Shop, { id }: Made): number | null {
  return sum(shop.book.weighings.filter((one) => one.made === id));
}

export const standingMade = (shop: Shop): Made[] => shop.book.smokehouse.made.filter(({ voided }) => !voided);

/** What of a batch no other product was started with, and was not packed as it is. */
export function leftFor(shop: Shop, { id, batch }: Made): number {
  const ofBatch = standingMade(shop).filter((one) => one.batch === batch);
  const others = ofBatch.filter((one) => one.id !== id).reduce((total, one) => total + (one.start?.grams ?? 0), 0);
  const packed = ofBatch.reduce((total, one) => total + (packedOf(shop, one) ?? 0), 0);
  return Math.max(0, shop.batchIn(batch) - others - Math.max(0, shop.batchOut(batch) - packed));
} // prettier-ignore

/** Why meat of a batch goes into no product: any animal of it is held, or a positive one reached it. */
export function heldMeat(shop: Shop, batch: Batch | undefined): string[] {
  if (!batch) return [];
  const held = batch.animals.some((id) => {
    const animal = shop.animal(id);
    return animal !== undefined && shop.held(animal) !== 'free';
  });
  return [...(held ? ['made.held'] : []), ...(shop.reachedBy(batch).length > 0 ? ['batch.affected'] : [])];
}

/** What so many grams of a cure on so much meat come to, held against the ceiling. */
export function aboveLimit(cureGrams: number, strength: number, meatGrams: number): { refuse: string[]; may: string[] } {
  const ppm = (cureGrams * strength * 1e6) / meatGrams;
  if (Math.abs(ppm - MOST_PPM) < NEAR_PPM && ppm > MOST_PPM) return { refuse: [], may: ['cure.above-limit'] };
  return { refuse: ppm > MOST_PPM ? ['cure.above-limit'] : [], may: [] };
} // prettier-ignore

/** Grams of so many ounces on 100 lb of meat. */
export const scaled = (ounces: number, meatGrams: number): number =>
  (ounces * GRAMS.oz * meatGrams) / (100 * GRAMS.lb);

/** More out than in. */
export const moreOut = (out: number, into: number): { refuse: string[]; may: string[] } =>
  byWeight(out, into * AS_WEIGHED, 'made.more-out');

export const loadsWith = (shop: Shop, made: number): Load[] =>
  shop.book.smokehouse.loads.filter(({ batches }) => batches.some((one) => one.made === made && !one.voided));

/** Whether a label may call a product ready to eat; null: the model does not say. */
export function mayBeReady(shop: Shop, made: Made): boolean | null {
  if (!made.start?.cured) return false;
  const loads = loadsWith(shop, made.id);
  const [load] = loads;
  const against = shop.book.smokehouse.decisions.some(
    (one) => !one.voided && one.decided !== 'authority' && (one.made === made.id || loads.some(({ id }) => id === one.load)),
  );
  if (!load || against) return false;
  if (loads.length > 1) return null;
  return load.verdict !== null && load.verdict.met && load.verdict.fresh;
} // prettier-ignore
