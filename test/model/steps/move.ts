/** A weight that was entered for the wrong animal or the wrong part. */
import { act, because, type Step } from '../step.ts';
import { NOBODY } from './nobody.ts';
import { closed, CUTS, keep, mayWeigh, NOTHING, overdrawn, someWeighing, takeBack } from './table.ts';
import { REASONS } from '../typed.ts';

export const move: Step = {
  weight: 3,
  calls: ['table.move'],
  draw(shop, dice) {
    const old = someWeighing(shop, dice);
    if (!old) return null;
    const from = shop.animal(old.animal) ?? NOBODY;
    const target = dice.onceIn(3) ? from : dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]) ?? NOBODY;
    const part = old.stage === 'cut' && dice.onceIn(2) ? dice.pick(CUTS) : null;
    const to = part ? { stage: 'cut', part, primal: null } as const : null;
    const { stage, part: as, primal } = to ?? old;
    const confirmed = dice.onceIn(2);
    const stays = target === from && old.part === as && old.primal === primal;
    const fits = mayWeigh(shop, target, { stage, primal, grams: old.grams, corrects: old });
    const rest = overdrawn(shop, old, target === from && old.part === as ? old.grams : 0);
    return act('table.move', { weighingId: old.id, animalId: target.id, ...(to && { to }), reason: dice.pick(REASONS), confirmed, by: 'MB' }, {
      refuse: [
        ...closed(shop, old),
        ...because([old !== NOTHING && (old.batch !== null || old.animal === null), 'move.in-batch'], [old !== NOTHING && stays, 'move.nowhere']),
        ...(old === NOTHING ? [] : [...fits.refuse, ...rest.refuse]),
      ],
      may: [...fits.may, ...rest.may, ...(confirmed ? [] : ['weight.unlikely', 'weight.over', 'weight.hung-again'])],
      done({ weighingId, grams }) {
        takeBack(shop, old);
        if (stage === 'cut' && target.stage === 'hanging') target.stage = 'cutting';
        keep(shop, target, { id: weighingId, stage, part: as, primal, count: old.count, grams: old.grams }, grams);
      },
    });
  },
}; // prettier-ignore
