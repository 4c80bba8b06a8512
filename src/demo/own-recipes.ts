/** The shop makes its sausage with more pork than the recipes that came with the program. */
import type { RecipeBody } from '../desk/contract/contract.ts';
import type { Counter } from './counter.ts';

/** Shares of game and pork in the meat, and the pork's fat: about what its orders ask for. */
const MEAT: Readonly<Record<string, { game: number; pork: { share: number; fat: number } } | undefined>> = {
  'Summer sausage': { game: 0.58, pork: { share: 0.42, fat: 0.5 } },
  'Breakfast sausage': { game: 0.58, pork: { share: 0.42, fat: 0.5 } },
  'Snack sticks': { game: 0.72, pork: { share: 0.28, fat: 0.8869 } },
};

/** A version of the shop's own for each of them. */
export function setOwnShares(counter: Counter, by: string): void {
  for (const { id, name, product, body: stored } of counter.book.recipes.all()) {
    const own = MEAT[product];
    if (!own) continue;
    const body = JSON.parse(stored) as RecipeBody;
    const meat = body.meat.map((part) =>
      part.kind === 'pork' ? { ...part, ...own.pork } : { ...part, share: own.game },
    );
    counter.call('recipes.save', { id, name, product, body: { ...body, meat }, reason: 'As we make it', by });
  }
}
