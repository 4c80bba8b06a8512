/** What the shop makes after the grinder: amounts weighed by a recipe, a night in the oven, packages on the next working day. */
import type { MadePage } from '../desk/contract/contract.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { momentAt } from './invented/calendar.ts';
import { drawing } from './invented/draw.ts';
import { freezerPlace } from './freezer.ts';
import { SEASONS } from './invented/invention.ts';
import { typedOf } from './invented/typed.ts';
import type { Counter } from './counter.ts';
import { intoOven } from './oven.ts';
import type { Shop } from './shop-day.ts';

/** Ready recipes that the shop took over. */
const RECIPES = ['summer', 'sticks', 'breakfast', 'ground-jerky'] as const;
const STRENGTH = 0.0625;
/** Packed ÷ stuffed by product with its spread from batch to batch; what is packed raw leaves some in the stuffer. */
const YIELDS: Readonly<Record<string, readonly [middle: number, sd: number]>> = {
  'Summer sausage': [0.87, 0.012],
  'Snack sticks': [0.66, 0.02],
  'Ground jerky': [0.52, 0.025],
};
const RAW_YIELD = [0.985, 0.005] as const;
/** Share of the raw product that stays in mixer and stuffer. */
const LEFT_IN_STUFFER = [0.004, 0.012] as const;
/** Minutes after midnight of the day on which it is out of the oven. */
const PACK_AT = 8 * 60 + 40;

/** The owners and the packages that a product is made for. */
interface For {
  owners: readonly DemoAnimal[];
  packageGrams: number;
  by: string;
  done: () => void | Promise<void>;
}

/** The shop's recipes, with the strength that is printed on its packet of cure. */
export function setUpRecipes(counter: Counter, by: string): void {
  for (const code of RECIPES) counter.call('recipes.addReady', { code, by });
  const cure = counter.book.recipes.ingredients().find(({ kind }) => kind === 'cure');
  if (!cure) return;
  counter.call('recipes.saveIngredient', {
    id: cure.id,
    ingredient: {
      name: cure.name,
      kind: 'cure',
      parts: [],
      allergens: [],
      cure: {
        nitrite: STRENGTH,
        nitrate: 0,
        accelerator: 0,
        salt: null,
        nitriteAs: 'sodium',
        typed: '6.25%',
        uses: null,
      },
      note: 'Locked away, on a scale of its own',
    },
    by,
  });
}

/** The recipe for a product, if the shop has one. */
export function recipeFor({ book }: Counter, product: string): number | null {
  return book.recipes.all().find((recipe) => recipe.product === product)?.id ?? null;
}

/** From the ground meat to packages; what is cooked is packed on the next working day. */
export async function makeProduct(shop: Shop, recipeId: number, batchId: number, order: For): Promise<void> {
  const { counter } = shop;
  const { by } = order;
  const { id } = await counter.call('made.open', { recipeId, batchId, by });
  const draw = drawing(SEASONS.seed, 61, id);
  counter.call('made.start', { id, by });
  const page = await counter.call('made.get', { id });
  for (const { ingredientId, grams, role } of page.sheet?.amounts ?? []) {
    // Water goes over the large scale.
    const typed = role === 'water' ? `${typedOf(grams)} lb` : `${grams} g`;
    counter.confirm('made.weigh', { id, ingredientId, typed, lot: lotOf(shop, ingredientId), by });
  }
  const raw = (page.sheet?.totalGrams ?? 0) * (1 - draw.between(...LEFT_IN_STUFFER));
  counter.call('made.stage', {
    id,
    stage: 'stuffed',
    typed: typedOf(raw),
    pieces: page.sheet?.casings?.pieces,
    by,
  });
  const [middle, sd] = YIELDS[page.product] ?? RAW_YIELD;
  const finished = raw * Math.min(0.999, middle + sd * draw.normal());
  if (page.finish === 'raw') return packed(shop, { page, finished, order });
  const out = intoOven(shop, page, by);
  shop.events.schedule(momentAt(out, PACK_AT + draw.between(0, 60)), () => {
    counter.call('made.stage', { id, stage: 'cooked', typed: typedOf(finished * 1.004), by });
    return packed(shop, { page, finished, order });
  });
}

/** Lots last for weeks. */
const lotOf = ({ counter }: Shop, ingredientId: number): string =>
  `${counter.today().slice(2, 7).replace('-', '')}-${ingredientId}`;

function packed(
  { counter }: Shop,
  { page, finished, order }: { page: MadePage; finished: number; order: For },
): void | Promise<void> {
  const { owners, packageGrams, by, done } = order;
  const count = Math.max(1, Math.round(finished / packageGrams));
  const [first] = owners;
  const place = first ? freezerPlace(first) : '';
  counter.confirm('made.pack', { id: page.id, count, typed: typedOf(finished), place, by });
  counter.call('grinder.finish', { batchId: page.batchId, by });
  return done();
}
