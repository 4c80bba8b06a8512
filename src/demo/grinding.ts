/** A batch from its plan to its packages: weighed in, ground twice, sometimes tested for fat. */
import { GRAMS_PER } from '../core/values/units.ts';
import type { StoredPlan } from '../desk/grinder/grind-plan.ts';
import type { PlanPart } from '../desk/contract/contract.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { drawing, type Draw } from './invented/draw.ts';
import { needFat, trueFat } from './fat-bought.ts';
import { freezerPlace } from './freezer.ts';
import { MISTAKES, SEASONS } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';
import { makeProduct, recipeFor } from './smokehouse.ts';
import { STEP_GRAMS, typedOf } from './invented/typed.ts';

const TESTED = 0.24;
const METHOD = 'Quick tester, 50 g';
/** Standard deviation of the fat tester. */
const TESTER_SD = 0.006;
/** Residue in the grinder and on the plate, as a share. */
const LEFT_BEHIND = [0.004, 0.02] as const;
const TUB_GRAMS = 60 * GRAMS_PER.lb;
/** Minutes between two batches. */
const WALK_UP = 2;
const FINE_PLATES = ['3/16 in', '3/16 in', '1/8 in'] as const;

export interface Grind {
  owners: DemoAnimal[];
  /** Grams of trim by owner, in the same order; null for all that is left. */
  grams: number | null;
  fat: string;
  targetFat: number | null;
  product: string;
  packageGrams: number;
  by: string;
  done: () => void | Promise<void>;
}

export async function grind(shop: Shop, order: Grind): Promise<void> {
  const { counter } = shop;
  const wait = shop.benchFreeAt.getTime() - counter.now().getTime();
  if (wait > 0) return shop.scheduleIn(wait / 60_000 + WALK_UP, () => grind(shop, order));
  const { owners, grams, product, by } = order;
  const animals = owners.map(({ id }) => ({ id, ...(grams === null ? {} : { grams }) }));
  const recipeId = recipeFor(counter, product);
  const { fat, targetFat } = recipeId === null ? order : { fat: 'none', targetFat: null };
  const need = { animals, fat, targetFat, recipeId };
  await needFat(shop, need, order.fat, owners[0]?.season.mistakes ?? true);
  const { id } = await counter.call('grinder.start', { ...need, product, by });
  const draw = drawing(SEASONS.seed, 7, id);
  const { parts } = JSON.parse(counter.book.batches.get(id)?.plan ?? '{}') as StoredPlan;
  let minutes = 0;
  const next = (wait: number, happens: () => void | Promise<void>) =>
    shop.scheduleIn((minutes += wait), happens);
  for (const part of parts)
    for (const typed of tubsOf(part, draw))
      next(draw.between(2, 4), () => weighIn(shop, order, { id, part, typed }));
  shop.benchFreeAt = new Date(counter.now().getTime() + minutes * 60_000);
  const pass = (plate: string, f: number) =>
    next(draw.between(5, 9), () => {
      const tempTyped = draw.maybe(0.85) ? `${f} F` : '';
      counter.call('grinder.pass', { batchId: id, plate, tempTyped, by });
    });
  pass('3/8 in', draw.whole(31, 35));
  pass(draw.pick(FINE_PLATES), draw.whole(34, 38));
  if (draw.maybe(TESTED)) next(4, () => test(shop, order, id, draw));
  next(draw.between(10, 20), () => {
    if (recipeId !== null) return makeProduct(shop, recipeId, id, order);
    pack(shop, order, id, draw);
    counter.call('grinder.finish', { batchId: id, by });
    return order.done();
  });
}

/** In tubs that one person can lift; fat is cut to the plan, give or take one step. */
function tubsOf({ kind, grams }: PlanPart, draw: Draw): string[] {
  if (kind === 'fat') {
    const off = grams > 8 * STEP_GRAMS && draw.maybe(0.3) ? -STEP_GRAMS : 0;
    return [typedOf(grams + off)];
  }
  const tubs = Math.ceil(grams / TUB_GRAMS);
  const each = Math.floor(grams / tubs / STEP_GRAMS) * STEP_GRAMS;
  return Array.from({ length: tubs }, (_, i) => typedOf(i < tubs - 1 ? each : grams - (tubs - 1) * each));
}

function weighIn(
  { counter }: Shop,
  { owners, by }: Grind,
  { id, part, typed }: { id: number; part: PlanPart; typed: string },
): void {
  const trim = part.kind === 'trim';
  const owner = owners.find((one) => part.key === `trim ${one.id}`);
  counter.confirm('grinder.weighIn', {
    batchId: id,
    animalId: trim ? (owner?.id ?? null) : null,
    fatLotId: part.fatLotId,
    part: trim ? 'trim' : 'fat added',
    typed,
    by,
  });
}

/** The tester's reading of the true fat; once in a season the wrong tub is tested. */
function test(shop: Shop, { owners, by }: Grind, batchId: number, draw: Draw): void {
  const rows = shop.counter.book.weighings.ofBatch(batchId);
  const fat = rows.reduce((sum, row) => {
    const owner = owners.find(({ id }) => id === row.animal_id);
    return sum + row.grams * (row.part === 'trim' ? (owner?.trimFat ?? 0) : trueFat(shop, row.fat_lot_id));
  }, 0);
  const target = shop.counter.book.batches.get(batchId)?.target_fat ?? null;
  const counts = target !== null && (owners[0]?.season.mistakes ?? false);
  const off = counts && ++shop.tests === MISTAKES.fatTest.nth ? MISTAKES.fatTest.off : 0;
  const shown = Math.max(0.005, fat / inGrams(shop, batchId) + off + TESTER_SD * draw.normal());
  const percent = Math.round(shown * 1000) / 10;
  shop.counter.call('grinder.fatTest', { batchId, percent, method: METHOD, by });
}

function pack(shop: Shop, { owners, product, packageGrams, by }: Grind, batchId: number, draw: Draw): void {
  const out = inGrams(shop, batchId) * (1 - draw.between(...LEFT_BEHIND));
  const count = Math.max(1, Math.round(out / packageGrams));
  const [first] = owners;
  const place = first ? freezerPlace(first) : '';
  shop.counter.confirm('grinder.pack', { batchId, product, count, typed: typedOf(out), place, by });
}

function inGrams({ counter }: Shop, batchId: number): number {
  return counter.book.weighings.ofBatch(batchId).reduce((sum, { grams }) => sum + grams, 0);
}
