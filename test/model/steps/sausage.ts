/** Summer sausage from trim to a verdict: single steps seldom come to it, and what a label may say hangs on all of them. */
import type { Driver, Window } from '../driver.ts';
import type { Step } from '../step.ts';
import { leftFor } from '../smokehouse.ts';
import type { Animal, Batch } from '../state.ts';
import { inPounds } from '../typed.ts';
import { begins, putsIn } from './grinder.ts';
import { cooksThrough } from './loads.ts';
import { opens, packs, stages, starts, weighsIn } from './made.ts';
import { savesIngredient, savesRecipe } from './recipes.ts';
import { weighs } from './table.ts';

/** Trim of an animal, as a share of what it weighs, and what one without a weight is taken to weigh, in grams. */
const TRIM = 0.1;
const USUAL = 40_000;
const RECIPE = 'House summer';

export const makeSausage: Step = {
  weight: 2,
  calls: [
    'table.weigh', 'grinder.start', 'grinder.weighIn', 'made.open', 'made.start', 'made.weigh', 'made.stage', 'made.pack', 'loads.open',
    'loads.record', 'loads.importLog', 'loads.judge', 'recipes.save', 'recipes.saveIngredient',
  ],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop.filter((one) => shop.held(one) === 'free'), shop.inShop);
    if (!animal) return null;
    const far = dice.pick(['stuffed', 'cooked', 'packed'] as const);
    return {
      deed: `summer sausage of ${animal.ticket}`,
      run: (driver, window = driver.windows[0] as Window) => make(driver, window, animal, far),
    };
  },
}; // prettier-ignore

async function make(driver: Driver, window: Window, animal: Animal, far: 'stuffed' | 'cooked' | 'packed'): Promise<void> {
  const { shop } = driver;
  const recipe = await recipeFor(driver, window);
  const batch = recipe && (await ground(driver, window, animal));
  if (!recipe || !batch) return;
  const begun = (await driver.perform(opens(shop, recipe, batch), window)) as { id: number } | null;
  const made = begun && shop.book.smokehouse.made.find(({ id }) => id === begun.id);
  if (!made || leftFor(shop, made) < 1000) return;
  if (!(await driver.perform(starts(shop, made, null), window))) return;
  for (const what of ['salt', 'cure'] as const)
    await driver.perform(weighsIn(shop, made, what, 1, { confirmed: true, lot: 'A-7' }), window);
  const stuffed = inPounds((made.start?.grams ?? 0) * 0.99);
  if (!(await driver.perform(stages(shop, made, 'stuffed', stuffed), window)) || far === 'stuffed') return;
  await cooksThrough(driver, window, made);
  if (far === 'cooked') return;
  const out = inPounds(stuffed.grams * 0.85);
  await driver.perform(stages(shop, made, 'cooked', out), window);
  await driver.perform(packs(shop, made, out, { count: 12, confirmed: true, reason: 'as weighed' }), window);
} // prettier-ignore

async function ground(driver: Driver, window: Window, animal: Animal): Promise<Batch | undefined> {
  const { shop } = driver;
  const weight = inPounds(TRIM * (shop.whole(animal.id) ?? USUAL));
  await driver.perform(weighs(shop, animal, { stage: 'cut', part: 'trim', primal: null, count: null, weight, confirmed: true }), window);
  const plan = { fat: 'none', targetFat: null, product: 'Summer Sausage' };
  const begun = (await driver.perform(begins(shop, [animal], plan), window)) as { id: number } | null;
  const batch = begun ? shop.batch(begun.id) : undefined;
  if (!batch) return undefined;
  const done = await driver.perform(putsIn(shop, batch, animal, inPounds(shop.trimLeft(animal.id) * 0.9), true), window);
  return done ? batch : undefined;
} // prettier-ignore

/** The recipe of these deeds, with salt and a cure of its own; taken up anew where it was put away or changed. */
async function recipeFor(driver: Driver, window: Window) {
  const { smokehouse } = driver.shop.book;
  const known = smokehouse.recipes.find(({ name }) => name === RECIPE);
  if (known) return known.away || known.cured?.ounces !== 4 ? undefined : known;
  for (const named of [{ name: 'Sea salt', isCure: false }, { name: 'House pink', isCure: true }])
    if (!smokehouse.ingredients.some(({ name }) => name === named.name))
      await driver.perform(savesIngredient(driver.shop, undefined, named, 0.0625), window);
  const [salt, cure] = ['Sea salt', 'House pink'].map((name) => smokehouse.ingredients.find((one) => one.name === name)?.id);
  if (salt === undefined || cure === undefined) return undefined;
  await driver.perform(savesRecipe(driver.shop, undefined, RECIPE, { salt, cure, ounces: 4 }, ''), window);
  return smokehouse.recipes.find(({ name }) => name === RECIPE);
} // prettier-ignore
