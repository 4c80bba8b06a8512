/** Two animals ground into one batch: single steps seldom come to it, and holds after it are what can hurt somebody. */
import type { Driver, Window } from '../driver.ts';
import type { Step } from '../step.ts';
import type { Shop } from '../shop.ts';
import type { Animal } from '../state.ts';
import { inPounds } from '../typed.ts';
import { begins, putsIn } from './grinder.ts';
import { movesTo, weighs } from './table.ts';

/** The share of an animal that is weighed as trim here, and what an animal without a weight is taken to weigh, in grams. */
const TRIM = 0.1;
const USUAL = 40_000;

/** Whom the model would let into one batch with others. */
const poolable = (shop: Shop): Animal[] =>
  shop.inShop.filter(
    (one) =>
      shop.held(one) === 'free' &&
      !shop.book.hunters.some(({ id, refusesPooling }) => id === one.hunter && refusesPooling),
  );

export const groundTogether: Step = {
  weight: 2.5,
  calls: ['table.weigh', 'grinder.start', 'grinder.weighIn', 'animals.setStage'],
  draw(shop, dice) {
    const first = dice.mostly(poolable(shop), shop.inShop);
    const second = dice.mostly(poolable(shop).filter((one) => one !== first), shop.inShop);
    if (!first || !second || first === second) return null;
    const onward = dice.pick(['one', 'both', 'none'] as const);
    return {
      deed: `${first.ticket} and ${second.ticket} are ground together`,
      run: (driver, window = driver.windows[0] as Window) => grind(driver, window, [first, second], onward),
    };
  },
}; // prettier-ignore

async function grind(driver: Driver, window: Window, animals: [Animal, Animal], onward: 'one' | 'both' | 'none'): Promise<void> {
  const { shop } = driver;
  for (const animal of animals) {
    const weight = inPounds(TRIM * (shop.whole(animal.id) ?? USUAL));
    await driver.perform(weighs(shop, animal, { stage: 'cut', part: 'trim', primal: null, count: null, weight, confirmed: true }), window);
  }
  const begun = (await driver.perform(begins(shop, animals, { fat: 'none', targetFat: null, product: 'Ground' }), window)) as { id: number } | null;
  const batch = begun && shop.batch(begun.id);
  if (!batch) return;
  for (const animal of animals) await driver.perform(putsIn(shop, batch, animal, inPounds(shop.trimLeft(animal.id) / 2), true), window);
  const ready = { one: animals.slice(1), both: animals, none: [] }[onward];
  for (const animal of ready) await driver.perform(movesTo(shop, animal, 'ready'), window);
} // prettier-ignore
