/** Hunters who share an animal, and take their parts one after the other. */
import { act, because, type Step } from '../step.ts';
import { CRUMB, type Shop } from '../shop.ts';
import type { Animal } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { isInShop } from '../shop.ts';

const takenOf = (shop: Shop, { id }: Animal): number[] =>
  shop.book.shares.find((one) => one.animal === id)?.taken ?? [];
const huntersOf = (shop: Shop, { id }: Animal): number[] => {
  const all = shop.book.shares.find((one) => one.animal === id)?.hunters ?? [];
  return all.length > 1 ? all : [];
};

export const saveShares: Step = {
  weight: 1.5,
  calls: ['shares.save'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const others = shop.book.hunters.filter(({ id }) => id !== animal.hunter);
    const other = dice.mostly(others.filter(({ removed }) => !removed), others);
    const owner = shop.book.hunters.find(({ id }) => id === animal.hunter);
    const chosen = dice.onceIn(6) ? [owner] : dice.onceIn(12) ? [other] : [owner, other];
    const hunters = chosen.filter((one) => one !== undefined);
    const typed = dice.pick(['1', '50', 'half']);
    const basis = dice.pick(['percent', 'pieces'] as const);
    return act('shares.save', { animalId: animal.id, basis, shares: hunters.map(({ id }) => ({ hunter: { id }, typed })), by: 'MB' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [!isInShop(animal), 'animal.closed'],
        [takenOf(shop, animal).length > 0, 'share.taken'],
        [hunters.length === 0, 'list.needed'],
        [typed === 'half', 'share.unreadable'],
        [basis === 'percent' && typed === '1' && hunters.length > 1, 'share.percent'],
        [hunters.some(({ removed }) => removed), 'hunter.gone'],
        [!hunters.some(({ id }) => id === animal.hunter), 'share.owner'],
      ),
      done() {
        shop.book.shares = [
          ...shop.book.shares.filter((one) => one.animal !== animal.id),
          { animal: animal.id, hunters: hunters.map(({ id }) => id), taken: [] },
        ];
      },
    });
  },
}; // prettier-ignore

export const releaseShare: Step = {
  weight: 3,
  calls: ['shares.release'],
  draw(shop, dice) {
    const ready = shop.inShop.filter((one) => one.stage === 'ready' && huntersOf(shop, one).length > 0);
    const animal = dice.mostly(ready, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const hunters = huntersOf(shop, animal);
    const hunterId = dice.mostly(hunters, [9999]) ?? 9999;
    const taken = takenOf(shop, animal);
    const last = hunters.every((one) => one === hunterId || taken.includes(one));
    const here = shop.book.belongings.some((one) => one.animal === animal.id && !one.voided && !one.gone);
    const confirmed = dice.onceIn(2);
    return act('shares.release', { id: animal.id, hunterId, to: 'Bob', unpaidBy: 'RO', confirmed, by: 'RO' }, {
      refuse: [
        ...because(
          [animal === NOBODY, 'animal.unknown'],
          [animal !== NOBODY && animal.stage !== 'ready', 'release.not-ready'],
          [shop.held(animal) !== 'free', 'release.held'],
          [!hunters.includes(hunterId), 'share.not-sharer'],
          [taken.includes(hunterId), 'share.gone'],
          [last && here && !confirmed, 'release.belongings'],
        ),
        ...shop.pooledOff(animal),
      ],
      done(answer) {
        if (answer.last !== last) throw new Error(`last ${answer.last}, not ${last}`);
        taken.push(hunterId);
        if (!last) return;
        Object.assign(animal, { stage: 'released', releasedOn: shop.today });
        const own = shop.ownLot(animal.id);
        if (own) Object.assign(own, own.left > CRUMB ? { left: 0, gone: own.left } : { gone: 0 });
      },
    });
  },
}; // prettier-ignore

export const voidShare: Step = {
  weight: 0.7,
  calls: ['shares.voidRelease'],
  draw(shop, dice) {
    const some = shop.inShop.filter((one) => takenOf(shop, one).length > 0);
    const animal = dice.mostly(some, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const taken = takenOf(shop, animal);
    const hunterId = dice.mostly(taken, [9999]) ?? 9999;
    return act('shares.voidRelease', { id: animal.id, hunterId, reason: 'left it here' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [animal !== NOBODY && animal.stage !== 'ready', 'animal.closed'],
        [!taken.includes(hunterId), 'share.not-gone'],
      ),
      done: () => void taken.splice(taken.indexOf(hunterId), 1),
    });
  },
}; // prettier-ignore
