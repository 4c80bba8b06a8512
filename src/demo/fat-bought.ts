/** Fat that the invented shop buys: a case on delivery day when little is left, and more when a batch needs it. */
import { addDays } from '../core/values/dates.ts';
import { GRAMS_PER } from '../core/values/units.ts';
import { keepsOf } from '../desk/grinder/fat-keeps.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../desk/animal/fat-moves.ts';
import { FATS } from '../desk/supplied/resources.ts';
import { momentAt } from './invented/calendar.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS, SHOP, type FatBought, type InventedSeason } from './invented/invention.ts';
import type { Shop } from './shop-day.ts';
import { STEP_GRAMS, typedOf } from './invented/typed.ts';

const DELIVERED = 9 * 60 + 20;
const [CLEARED_OUT, COUNTED] = [7 * 60 + 40, 18 * 60 + 30];
const DRY_EDGES_GRAMS = 0.85 * GRAMS_PER.lb;
const COUNTS = SHOP.staff[0]?.initials ?? '';
/** Seasons start on a Saturday; deliveries come on Tuesdays. */
const [FIRST_DELIVERY, WEEK] = [3, 7];
/** Labels are visual grades, so the true fat is off by this much of the published spread. */
const LABEL_OFF = 0.5;
/** Surplus of fat bought for a batch. */
const SPARE = 1.05;

export function planDeliveries(shop: Shop, { opens }: InventedSeason): void {
  shop.events.schedule(momentAt(opens, CLEARED_OUT), () => clearOut(shop, 'Left from last season'));
  shop.events.schedule(momentAt(addDays(shop.lastDay, -1), COUNTED), () => countOldest(shop));
  for (let day = addDays(opens, FIRST_DELIVERY); day < shop.lastDay; day = addDays(day, WEEK))
    shop.events.schedule(momentAt(day, DELIVERED), () => {
      clearOut(shop, 'Past its use-by');
      for (const fat of SHOP.fats)
        if (onHand(shop, fat.source) < fat.keepLb * GRAMS_PER.lb) buy(shop, fat, fat.caseLb * GRAMS_PER.lb);
    });
}

/** Discards lots past their use-by date, before the season and on delivery days. */
function clearOut({ counter }: Shop, reason: string): void {
  for (const lot of counter.book.fat.all())
    if (lot.left_grams > ROUNDING_TOLERANCE_GRAMS && keepsOf(counter, lot) === 'past')
      counter.call('fat.discard', { lotId: lot.id, reason, by: COUNTS });
}

/** On the evening before the demo's current date the lot in use is weighed, and less is left than recorded. */
function countOldest({ counter }: Shop): void {
  const lot = counter.book.fat
    .all()
    .find(
      (one) =>
        one.animal_id === null && one.left_grams > 3 * DRY_EDGES_GRAMS && keepsOf(counter, one) !== 'past',
    );
  if (!lot) return;
  const typed = typedOf(lot.left_grams - DRY_EDGES_GRAMS);
  counter.call('fat.count', { lotId: lot.id, typed, reason: 'Weighed; dry edges trimmed off', by: COUNTS });
}

export interface FatNeed {
  animals: { id: number; grams?: number }[];
  fat: string;
  targetFat: number | null;
  recipeId: number | null;
}

/** Ensures that a batch can reach its target or has the meat of its recipe, of this source. `cases`: buys in cases, else only the missing amount. */
export async function needFat(shop: Shop, need: FatNeed, source: string, cases: boolean): Promise<void> {
  const fat = SHOP.fats.find((one) => one.source === source);
  if (!fat || (need.targetFat === null && need.recipeId === null)) return;
  if (need.targetFat !== null && onHand(shop, source) > mostNeeded(shop, need, need.targetFat)) return;
  const plan = await shop.counter.call('grinder.plan', need);
  if (plan.kind !== 'not enough fat') return;
  const missing = Math.ceil((plan.missingGrams * SPARE) / STEP_GRAMS) * STEP_GRAMS;
  buy(shop, fat, cases ? Math.max(missing, fat.caseLb * GRAMS_PER.lb) : missing);
}

/** The fat needed if the trim had none at all. */
function mostNeeded({ counter }: Shop, { animals, fat }: FatNeed, target: number): number {
  const rich = FATS.find(({ code }) => code === fat)?.fat ?? 0;
  const trim = animals.reduce(
    (sum, { id, grams }) => sum + (grams ?? counter.book.weighings.sums(id)?.trim ?? 0),
    0,
  );
  return (trim * target) / (rich - target);
}

/** The true fat of a lot, which its label may misstate. */
export function trueFat({ counter }: Shop, lotId: number | null): number {
  const lot = counter.book.fat.get(lotId ?? 0);
  if (!lot) throw new RangeError(`no fat lot ${lotId}`);
  return Math.min(0.97, lot.fat + LABEL_OFF * lot.fat_sd * drawing(SEASONS.seed, 3, lot.id).normal());
}

function buy({ counter }: Shop, fat: FatBought, grams: number): void {
  const { costMinor, source, supplier, lot, useByDays } = fat;
  const today = counter.today();
  const draw = drawing(
    SEASONS.seed,
    5,
    Number(today.slice(0, 4)),
    FATS.findIndex(({ code }) => code === source),
  );
  const [least = 0, most = 0] = costMinor;
  counter.call('fat.receive', {
    source,
    typed: typedOf(grams),
    costTyped: (draw.whole(least, most) / 100).toFixed(2),
    costUnit: 'lb',
    supplier,
    supplierLot: `${lot}${today.slice(2).replaceAll('-', '')}`,
    useBy: addDays(today, useByDays),
    by: SHOP.staff[0]?.initials ?? '',
  });
}

function onHand({ counter }: Shop, source: string): number {
  return counter.book.fat
    .all()
    .filter((lot) => lot.source === source && lot.animal_id === null && keepsOf(counter, lot) !== 'past')
    .reduce((total, { left_grams }) => total + left_grams, 0);
}
