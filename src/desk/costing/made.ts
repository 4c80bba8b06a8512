/** What each product of the smokehouse cost and brings, from the season's own finished batches. */
import type { SeasonFat, SeasonGrind } from '../../book/sums/season-money.ts';
import { coverOf, linesFor, madeOf } from '../../core/pricing/cover.ts';
import { applies, type PriceLine } from '../../core/pricing/lines.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { CostFigures, MadeCost } from '../contract/contract.ts';
import { kindOf, productLookup } from '../pricing/product-lookup.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';
import { fatSpent } from './fat.ts';
import type { BilledAnimal } from './season-bills.ts';

interface Basis {
  figures: CostFigures;
  bills: readonly BilledAnimal[];
  /** Bought fat and meat of the season's grinds. */
  used: readonly SeasonFat[];
  /** Where none of a product's lots has a price. */
  fatPerKg: number;
  /** What the season's bills charge for bought fat and meat. */
  chargedPerKg: number;
}

/** A finished batch with its part of its grind. */
interface Batch {
  ownGrams: number;
  boughtGrams: number;
  packedGrams: number;
  packages: number;
}

/** One row for each recipe that was packed in the season. */
export function madeCosts(session: Session, season: number, basis: Basis): MadeCost[] {
  const grinds = new Map(session.book.seasonMoney.grinds(season).map((grind) => [grind.batch_id, grind]));
  const batches = session.losses.batches.filter((one) => one.season === season);
  return [...Map.groupBy(batches, ({ recipe_id: id }) => id)]
    .flatMap(([recipeId, own]) => {
      const recipe = session.book.recipes.get(recipeId);
      return recipe
        ? [
            costOfRecipe(
              session,
              recipe,
              own.map((one) => batchOf(one, grinds.get(one.batch_id))),
              basis,
            ),
          ]
        : [];
    })
    .sort((a, b) => b.packedGrams - a.packedGrams);
}

/** A grind may go into several products: each has its part of what went in by its meat. */
function batchOf(
  { block, packed, packages }: { block: number | null; packed: number; packages: number },
  grind: SeasonGrind | undefined,
): Batch {
  const whole = grind ? grind.own + grind.fat : 0;
  const share = grind && whole > 0 ? (block ?? 0) / whole : 0;
  return {
    ownGrams: share * (grind?.own ?? 0),
    boughtGrams: share * (grind?.fat ?? 0),
    packedGrams: packed,
    packages,
  };
}

/**
 * Work is that of every batch with its trim, as of other products; packages are those that were packed. Bought meat is at the price of the
 * lots of that product, ingredients at their figure.
 */
function costOfRecipe(
  session: Session,
  { id: recipeId, name: recipe, product }: { id: number; name: string; product: string },
  batches: readonly Batch[],
  { figures, bills, used, fatPerKg, chargedPerKg }: Basis,
): MadeCost {
  const perUnit = GRAMS_PER[session.settings.unit] / 1000;
  const packedKg = total(batches, ({ packedGrams }) => packedGrams) / 1000;
  const boughtKg = total(batches, ({ boughtGrams }) => boughtGrams) / 1000;
  const ownKg = total(batches, ({ ownGrams }) => ownGrams) / 1000;
  const { minutesPerAnimal, minutesPerKg } = figures.services.products;
  const hours = (batches.length * minutesPerAnimal + ownKg * minutesPerKg) / 60;
  const boughtPerKg = fatSpent(used.filter((one) => one.product === product)).perKg ?? fatPerKg;
  const each = (minor: number): number => (minor / packedKg) * perUnit;
  const parts = {
    work: each(hours * (figures.wagePerHour + figures.overheadPerHour)),
    packaging: each(total(batches, ({ packages }) => packages) * figures.packagingPerPackage),
    bought: each(boughtKg * boughtPerKg),
    ingredients: figures.ingredientsPerKg * perUnit,
  };
  const cost = parts.work + parts.packaging + parts.bought + parts.ingredients;
  const charged = chargeOf(session, { recipeId, product }, bills);
  const fee = charged && { ...charged, bought: each(boughtKg * chargedPerKg) };
  const taken = fee ? fee.product + fee.bought : 0;
  return {
    recipeId,
    recipe,
    product,
    batches: batches.length,
    packedGrams: packedKg * 1000,
    parts,
    cost,
    fee,
    margin: taken > 0 ? (taken - cost) / taken : null,
  };
}

/**
 * What today's prices charge for a packed unit of a recipe's product, on the billed animals that had it; null without
 * one. Bills from before do not tell recipes apart: theirs count for each recipe of the product.
 */
function chargeOf(
  session: Session,
  { recipeId, product: name }: { recipeId: number; product: string },
  bills: readonly BilledAnimal[],
): { product: number; bills: number } | null {
  const lines = pricesInForce(session)?.lines ?? [];
  const lookup = productLookup(session);
  const product = lookup(name)?.code ?? name;
  const kind = kindOf(name, lookup);
  const perUnit = GRAMS_PER[session.settings.unit];
  let [grams, minor, count] = [0, 0, 0];
  for (const { amounts } of bills) {
    const parts = madeOf(amounts, product).filter(
      (part) => part.grams > 0 && (part.recipe === null || part.recipe === String(recipeId)),
    );
    if (parts.length === 0) continue;
    count++;
    const applying = lines.filter((line) => applies(line, amounts));
    const { gramsOf } = coverOf(applying, amounts);
    for (const part of parts) {
      grams += part.grams;
      for (const line of linesFor(applying, { product, kind, recipe: part.recipe }))
        minor += chargedMinor(
          line,
          line.basis === 'trim' ? (part.trimGrams ?? 0) : part.grams,
          gramsOf(line),
        );
    }
  }
  return count > 0 && lines.length > 0 ? { product: (minor / grams) * perUnit, bills: count } : null;
}

/** What a line charges for its part of all that it charges for: a minimum of its own raises each part alike. */
function chargedMinor(line: PriceLine, grams: number, allGrams: number): number {
  const { amountMinor = 0, unit = 'lb', least = 0 } = line;
  const raised = allGrams > 0 ? Math.max(1, (least * GRAMS_PER[unit]) / allGrams) : 1;
  return (amountMinor * raised * grams) / GRAMS_PER[unit];
}

function total(batches: readonly Batch[], of: (batch: Batch) => number): number {
  return batches.reduce((sum, batch) => sum + of(batch), 0);
}
