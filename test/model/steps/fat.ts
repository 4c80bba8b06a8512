/** Fat on hand: bought, thrown out, counted. */
import { act, because, byWeight, type Step } from '../step.ts';
import { CRUMB, daysFrom, isInShop, type Shop } from '../shop.ts';
import type { Lot } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { dayNear, weightNear } from '../typed.ts';

const NO_LOT: Lot = { id: 9999, source: '', animal: null, left: 0, came: 0, gone: 0 };
/** Own fat of an animal that left, left with it. */
const leftWith = (shop: Shop, { animal }: Lot): boolean =>
  animal !== null && !isInShop(shop.animal(animal) ?? NOBODY);

export const buyFat: Step = {
  weight: 2,
  calls: ['fat.receive'],
  draw(shop, dice) {
    if (shop.book.lots.filter(({ animal, left }) => animal === null && left > CRUMB).length > 4) return null;
    const weight = weightNear(shop, dice, dice.between(3, 15) * 1000);
    const useBy = dice.onceIn(3) ? dayNear(dice, shop.today, -70, 2000) : null;
    const confirmed = dice.onceIn(2);
    const costTyped = dice.pick(['', '1.25', 'dear']);
    const days = useBy && !useBy.wrong ? daysFrom(shop.today, useBy.day) : 0;
    return act('fat.receive', { source: 'pork-back-fat', typed: weight.typed, costTyped, useBy: useBy?.day ?? null, confirmed }, {
      refuse: [
        ...because([useBy !== null && useBy.wrong !== null, useBy?.wrong ?? ''], [costTyped === 'dear', 'money.unreadable']),
        ...(costTyped === '1.25' && shop.book.settings.currency === 'JPY' ? ['money.too-fine'] : []),
        ...(confirmed ? [] : because([days < -60, 'date.long-ago'], [days > 5 * 366, 'date.far-ahead'])),
      ],
      done: ({ id }) => void shop.book.lots.push({ id, source: 'pork-back-fat', animal: null, came: weight.grams, left: weight.grams, gone: 0 }),
    });
  },
}; // prettier-ignore

export const throwOut: Step = {
  weight: 1,
  calls: ['fat.discard'],
  draw(shop, dice) {
    const lot = dice.mostly(shop.book.lots.filter(({ left }) => left > CRUMB), [...shop.book.lots, NO_LOT]);
    if (!lot) return null;
    const weight = dice.onceIn(2) ? weightNear(shop, dice, Math.max(lot.left, 100) * dice.pick([0.3, 1, 1.1])) : null;
    const most = weight ? byWeight(weight.grams, lot.left + CRUMB, 'fat.not-enough') : { refuse: [], may: [] };
    return act('fat.discard', { lotId: lot.id, typed: weight?.typed ?? null, reason: 'rancid' }, {
      refuse: [...because([lot === NO_LOT, 'fat.lot-unknown'], [lot !== NO_LOT && lot.left <= CRUMB, 'fat.none-left'], [leftWith(shop, lot), 'animal.closed']), ...most.refuse],
      may: most.may,
      done: () => void (lot.left -= Math.min(weight?.grams ?? lot.left, lot.left)),
    });
  },
}; // prettier-ignore

export const countFat: Step = {
  weight: 1,
  calls: ['fat.count'],
  draw(shop, dice) {
    const lot = dice.mostly(shop.book.lots, [NO_LOT]);
    if (!lot) return null;
    const weight = dice.onceIn(3) ? { typed: '0', grams: 0 } : weightNear(shop, dice, Math.max(lot.came, 100) * dice.pick([0.5, 0.9, 1, 1.1]));
    const most = byWeight(weight.grams, lot.came + CRUMB, 'fat.more-than-came');
    const same = byWeight(-Math.abs(weight.grams - lot.left), -CRUMB, 'fat.as-counted');
    return act('fat.count', { lotId: lot.id, typed: weight.typed, reason: 'counted' }, {
      refuse: [...because([lot === NO_LOT, 'fat.lot-unknown'], [leftWith(shop, lot), 'animal.closed']), ...(lot === NO_LOT ? [] : [...most.refuse, ...same.refuse])],
      may: [...most.may, ...same.may],
      done: () => void (lot.left = weight.grams),
    });
  },
}; // prettier-ignore
