/** Quotes: worked, kept, looked up. */
import { act, because, type Step } from '../step.ts';
import { markOf } from '../shop.ts';
import { weightNear } from '../typed.ts';
import { TYPICAL } from '../kinds.ts';
import { ordersOf } from './orders.ts';
import type { Dice } from '../dice.ts';
import type { Shop } from '../shop.ts';

function asked(shop: Shop, dice: Dice) {
  const species = dice.onceIn(20) ? 'unicorn' : dice.pick(Object.keys(TYPICAL));
  const brought = dice.pick(['skinned', 'whole', 'boned'] as const);
  const stage = dice.pick(['hanging', 'parts', 'live'] as const);
  const weight = weightNear(shop, dice, TYPICAL[species] ?? 50_000);
  const instructions = ordersOf(dice);
  const refuse = because(
    [species === 'unicorn', 'species.unknown'],
    [instructions.primals.some(({ primal }) => primal === 'wing'), 'primal.unknown'],
    [brought !== 'boned' && stage === 'parts', 'quote.stage'],
    [brought === 'boned' && stage === 'live', 'quote.stage'],
  );
  return { refuse, input: { species, brought, stage, typed: weight.typed, instructions } };
}

export const workQuote: Step = {
  weight: 0.5,
  calls: ['quotes.calculate'],
  draw(shop, dice) {
    const { input, refuse } = asked(shop, dice);
    return act('quotes.calculate', input, { refuse });
  },
};

export const saveQuote: Step = {
  weight: 0.7,
  calls: ['quotes.save'],
  draw(shop, dice) {
    const { input, refuse } = asked(shop, dice);
    const hunter = dice.onceIn(2)
      ? dice.mostly<{ id: number }>(shop.book.hunters, [{ id: 9999 }])
      : undefined;
    return act('quotes.save', { ...input, hunterId: hunter?.id ?? null, hunterName: 'Bo' }, {
      refuse: [...refuse, ...because(
          [hunter?.id === 9999, 'hunter.unknown'],
          [shop.book.hunters.some(({ id, removed }) => id === hunter?.id && removed), 'hunter.gone'],
        )],
      done({ id, name }) {
        if (shop.book.quotes.some((one) => one.name === name)) throw new Error(`quote ${name} was given before`);
        if (!name.startsWith(`Q${markOf(shop.season)}-`)) throw new Error(`quote ${name} in season ${shop.season}`);
        shop.book.quotes.push({ id, name, taken: false });
      },
    }); // prettier-ignore
  },
};
