/** What else came with an animal, and where it went. */
import { act, because, type Step } from '../step.ts';
import type { Dice } from '../dice.ts';
import type { Shop } from '../shop.ts';
import type { Belonging } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { REASONS } from '../typed.ts';

const NOTHING: Belonging = { id: 9999, animal: 0, voided: false, gone: false };

export const addBelonging: Step = {
  weight: 2,
  calls: ['belongings.add', 'belongings.list'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const kind = dice.pick(['antlers', 'cape', 'tail', '']);
    return act('belongings.add', { animalId: animal.id, kind, tag: 'A-1', evidence: dice.onceIn(3), by: 'RO' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'], [animal.stage === 'canceled', 'animal.closed'], [kind === '', 'text.needed'],
      ),
      done: ({ id }) => void shop.book.belongings.push({ id, animal: animal.id, voided: false, gone: false }),
      async then(driver, window) {
        const wanted = shop.book.belongings.filter((one) => one.animal === animal.id && !one.voided).map(({ id, gone }) => ({ id, gone }));
        const look = act('belongings.list', { animalId: animal.id }, {
          done(rows) {
            const found = rows.map(({ id, end }) => ({ id, gone: end !== null }));
            if (JSON.stringify(found) !== JSON.stringify(wanted)) throw new Error(`belongings ${JSON.stringify(found)}, not ${JSON.stringify(wanted)}`);
          },
        });
        await driver.perform(look, window);
      },
    });
  },
}; // prettier-ignore

const some = (shop: Shop, dice: Dice): Belonging | undefined =>
  dice.mostly(shop.book.belongings.filter(({ voided, gone }) => !voided && !gone), [...shop.book.belongings, NOTHING]); // prettier-ignore
const standing = (one: Belonging): string[] =>
  because([one === NOTHING, 'belonging.unknown'], [one.voided, 'belonging.voided']);

export const voidBelonging: Step = {
  weight: 0.5,
  calls: ['belongings.void'],
  draw(shop, dice) {
    const one = some(shop, dice);
    if (!one) return null;
    return act('belongings.void', { id: one.id, reason: dice.pick(REASONS) }, {
      refuse: standing(one),
      done: () => void (one.voided = true),
    }); // prettier-ignore
  },
};

export const endBelonging: Step = {
  weight: 1.5,
  calls: ['belongings.end'],
  draw(shop, dice) {
    const one = some(shop, dice);
    if (!one) return null;
    const went = dice.pick(['taxidermist', 'hunter', 'discarded'] as const);
    const name = dice.onceIn(3) ? '' : 'Pine Studio';
    const animal = shop.animal(one.animal);
    return act('belongings.end', { id: one.id, went, name, by: 'MB' }, {
      refuse: [
        ...standing(one),
        ...because(
          [one.gone, 'belonging.gone'],
          [went === 'taxidermist' && name === '', 'belonging.taxidermist'],
          [animal !== undefined && animal.receivedOn > shop.today, 'belonging.before-received'],
        ),
      ],
      done: () => void (one.gone = true),
    }); // prettier-ignore
  },
};

export const voidEnd: Step = {
  weight: 0.5,
  calls: ['belongings.voidEnd'],
  draw(shop, dice) {
    const one = dice.mostly(shop.book.belongings.filter(({ voided, gone }) => !voided && gone), [...shop.book.belongings, NOTHING]); // prettier-ignore
    if (!one) return null;
    return act('belongings.voidEnd', { id: one.id, reason: dice.pick(REASONS) }, {
      refuse: [...standing(one), ...because([one !== NOTHING && !one.gone, 'belonging.here'])],
      done: () => void Object.assign(one, { gone: false, along: false }),
    }); // prettier-ignore
  },
};
