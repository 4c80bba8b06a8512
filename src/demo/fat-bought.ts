/** Fat that the invented shop buys: a case on delivery day when little is left, and more when a batch lacks it. */
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
/** Seasons open on a Saturday; the van comes on Tuesdays. */
const [FIRST_DELIVERY, WEEK] = [3, 7];
/** The last lots' labels are graded by eye, so they are really this much of the published spread off. */
const LABEL_OFF = 0.5;
/** Bought for a batch, fat comes with a little to spare. */
const SPARE = 1.05;

export function planDeliveries(shop: Shop, { opens }: InventedSeason): void {
  shop.diary.note(momentAt(opens, CLEARED_OUT), () => clearOut(shop, 'Left from last season'));
  shop.diary.note(momentAt(addDays(shop.lastDay, -1), COUNTED), () => countOldest(shop));
  for (let day = addDays(opens, FIRST_DELIVERY); day < shop.lastDay; day = addDays(day, WEEK))
    shop.diary.note(momentAt(day, DELIVERED), () => {
      clearOut(shop, 'Past its use-by');
      for (const fat of SHOP.fats)
        if (onHand(shop, fat.source) < fat.keepLb * GRAMS_PER.lb) buy(shop, fat, fat.caseLb * GRAMS_PER.lb);
    });
}

/** What is past its use-by goes out before the season, and when the van comes. */
function clearOut({ counter }: Shop, reason: string): void {
  for (const lot of counter.book.fat.all())
    if (lot.left_grams > ROUNDING_TOLERANCE_GRAMS && keepsOf(counter, lot) === 'past')
      counter.call('fat.discard', { lotId: lot.id, reason, by: COUNTS });
}

/** The evening before the demo stands still somebody weighs the lot in use, and finds less than the book has. */
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

/** Sees to it that a batch can reach its target. `cases`: what is bought comes in cases, else just what is needed. */
export async function needFat(
  shop: Shop,
  asked: { animals: { id: number; grams?: number }[]; fat: string; targetFat: number | null },
  cases: boolean,
): Promise<void> {
  const fat = SHOP.fats.find(({ source }) => source === asked.fat);
  if (!fat || asked.targetFat === null) return;
  if (onHand(shop, fat.source) > mostNeeded(shop, asked)) return;
  const plan = await shop.counter.call('grinder.plan', asked);
  if (plan.kind !== 'not enough fat') return;
  const missing = Math.ceil((plan.missingGrams * SPARE) / STEP_GRAMS) * STEP_GRAMS;
  buy(shop, fat, cases ? Math.max(missing, fat.caseLb * GRAMS_PER.lb) : missing);
}

/** What the trim would take if there were no fat in it at all. */
function mostNeeded(
  { counter }: Shop,
  {
    animals,
    fat,
    targetFat,
  }: { animals: { id: number; grams?: number }[]; fat: string; targetFat: number | null },
): number {
  const rich = FATS.find(({ code }) => code === fat)?.fat ?? 0;
  const trim = animals.reduce(
    (sum, { id, grams }) => sum + (grams ?? counter.book.weighings.sums(id)?.trim ?? 0),
    0,
  );
  const target = targetFat ?? 0;
  return (trim * target) / (rich - target);
}

/** The fat of a lot as it really is, its label may say otherwise. */
export function reallyFat({ counter }: Shop, lotId: number | null): number {
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
