/** What the shop makes after the grinder: amounts weighed by a recipe, a cook over night, packages on the next working day. */
import { addDays } from '../core/values/dates.ts';
import type { MadePage } from '../desk/contract/contract.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { momentAt, nextWorkday } from './invented/calendar.ts';
import { drawing, type Draw } from './invented/draw.ts';
import { freezerPlace } from './freezer.ts';
import { SEASONS } from './invented/invention.ts';
import { typedOf } from './invented/typed.ts';
import type { Counter } from './counter.ts';
import type { Shop } from './shop-day.ts';

/** Ready recipes that the shop took over. */
const RECIPES = ['summer', 'sticks', 'breakfast'] as const;
const STRENGTH = 0.0625;
const OVEN = 'Smokehouse';
/** Packed ÷ stuffed by product with its spread from batch to batch; what is packed raw leaves some in the stuffer. */
const YIELDS: Readonly<Record<string, readonly [middle: number, sd: number]>> = {
  'Summer sausage': [0.87, 0.012],
  'Snack sticks': [0.66, 0.02],
};
const RAW_YIELD = [0.985, 0.005] as const;
/** Share of the raw product that stays in mixer and stuffer. */
const LEFT_IN_STUFFER = [0.004, 0.012] as const;
/** Minutes after the oven is on, and °F inside. */
const CURVE = [
  [0, 40],
  [150, 130],
  [240, 162],
  [252, 160],
  [264, 130],
  [334, 80],
  [570, 37],
] as const;
const COOKED_AFTER = 250;
const COLD_AFTER = 345;
const EVERY = { cook: 5, cooling: 20 } as const;
/** Share of loads whose thermometer was out of order for a while, and how long. */
const STOPPED = 0.12;
const STOPPED_MINUTES = [170, 205] as const;
const PACK_AT = 8 * 60 + 40;

/** The owners and the packages that a product is made for. */
interface For {
  owners: readonly DemoAnimal[];
  packageGrams: number;
  by: string;
  done: () => void;
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
  cook(shop, page, draw, by);
  const day = nextWorkday(counter.today());
  shop.events.schedule(momentAt(day, PACK_AT + draw.between(0, 60)), () => {
    counter.call('made.stage', { id, stage: 'cooked', typed: typedOf(finished * 1.004), by });
    packed(shop, { page, finished, order });
  });
}

/** Lots last for weeks. */
const lotOf = ({ counter }: Shop, ingredientId: number): string =>
  `${counter.today().slice(2, 7).replace('-', '')}-${ingredientId}`;

function packed(
  { counter }: Shop,
  { page, finished, order }: { page: MadePage; finished: number; order: For },
): void {
  const { owners, packageGrams, by, done } = order;
  const count = Math.max(1, Math.round(finished / packageGrams));
  const [first] = owners;
  const place = first ? freezerPlace(first) : '';
  counter.confirm('made.pack', { id: page.id, count, typed: typedOf(finished), place, by });
  counter.call('grinder.finish', { batchId: page.batchId, by });
  done();
}

/** The oven goes on now; the readings are written down in the morning, from the thermometer's display. */
function cook(shop: Shop, page: MadePage, draw: Draw, by: string): void {
  const { counter } = shop;
  const load = counter.call('loads.open', { oven: OVEN, madeIds: [page.id], by });
  const on = counter.now();
  const from = Math.round((on.getTime() - momentAt(counter.today(), 0).getTime()) / 60_000) + 15;
  const day = counter.today();
  const stopped = draw.maybe(STOPPED);
  const times = readTimes().filter((at) => !stopped || at < STOPPED_MINUTES[0] || at > STOPPED_MINUTES[1]);
  const momentOf = (after: number): Date => momentAt(day, from + after);
  const morning = nextWorkday(day);
  shop.events.schedule(momentAt(morning, PACK_AT - 40), async () => {
    for (const at of times) {
      const minutes = from + at;
      const earlier = {
        on: addDays(day, Math.floor(minutes / 1440)),
        time: `${Math.floor((minutes % 1440) / 60)}:${String(minutes % 60).padStart(2, '0')}`,
      };
      const typed = (along(at) + draw.between(-0.3, 0.3)).toFixed(1);
      counter.call('loads.reading', { id: load.id, probe: 'P1', phase: 'both', degrees: 'F', typed, earlier, source: 'thermometer', by }); // prettier-ignore
    }
    const { record } = await counter.call('loads.get', { id: load.id });
    const oven = { ovenStart: momentOf(0).toISOString(), ovenEnd: momentOf(COOKED_AFTER).toISOString() };
    counter.call('loads.record', { id: load.id, record: { ...record, ...oven }, by });
    const verdict = counter.call('loads.judge', { id: load.id, by });
    if (verdict.cook.answer !== 'meets-figures' || verdict.cooling.answer !== 'meets-figures')
      counter.call('loads.decide', {
        loadId: load.id,
        decided: 'not ready to eat',
        decidedBy: by,
        note: 'Labeled to be cooked through at home.',
        by,
      });
    counter.call('loads.close', { id: load.id, by });
  });
}

/** Closer together until it is cold enough to leave alone. */
function readTimes(): number[] {
  const last = CURVE.at(-1)?.[0] ?? 0;
  const times: number[] = [];
  for (let at = 0; at <= last; at += at < COLD_AFTER ? EVERY.cook : EVERY.cooling) times.push(at);
  return [...times, last];
}

function along(at: number): number {
  const to = CURVE.findIndex(([minutes]) => minutes >= at);
  const [after, before] = [CURVE[to] ?? [0, 0], CURVE[Math.max(0, to - 1)] ?? [0, 0]];
  const part = after[0] === before[0] ? 0 : (at - before[0]) / (after[0] - before[0]);
  return before[1] + part * (after[1] - before[1]);
}
