/** Keeping animals back, what the laboratory says, and what is done away with. */
import { act, because, type Step } from '../step.ts';
import { daysFrom, isInShop, standingOf, type Shop } from '../shop.ts';
import type { Animal, Hold } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { dayNear, REASONS } from '../typed.ts';

/** Whether its meat lies in a batch with another's: a hold then stops both. */
const isShared = (shop: Shop, { id }: Animal): boolean =>
  shop.book.batches.some(
    (batch) =>
      shop.wentInto(batch.id, id) &&
      batch.animals.some((other) => other !== id && shop.wentInto(batch.id, other)),
  );

const quoteOf = (shop: Shop, animal: Animal) => shop.book.quotes.find(({ id }) => id === animal.quote);

export const hold: Step = {
  weight: 2,
  calls: ['animals.hold'],
  draw(shop, dice) {
    const shared = dice.onceIn(3) ? shop.inShop.filter((one) => isShared(shop, one)) : [];
    const animal = dice.mostly(shared.length > 0 ? shared : shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const sample = dice.pick(['', 'L-7', 'L-8']);
    return act('animals.hold', { id: animal.id, reason: dice.pick(['smells', 'waits for the test']), sample }, {
      refuse: because([animal === NOBODY, 'animal.unknown'], [animal.stage === 'disposed' || animal.stage === 'canceled', 'animal.closed']),
      done: () => void animal.holds.push({ id: shop.newest('hold'), sample, withdrawn: false, results: [] }),
    }); // prettier-ignore
  },
};

/** The hold that counts where none is named: a positive one, else the first that lasts. */
function firstLasting({ holds }: Animal): Hold | undefined {
  return (
    holds.find((one) => standingOf(one) === 'positive') ?? holds.find((one) => standingOf(one) === 'held')
  );
}

export const endHold: Step = {
  weight: 2,
  calls: ['animals.endHold'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.book.animals.filter((one) => shop.held(one) !== 'free'), [...shop.book.animals, NOBODY]); // prettier-ignore
    if (!animal) return null;
    const open = firstLasting(animal);
    return act('animals.endHold', { id: animal.id, reason: 'passed by the inspector' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [animal !== NOBODY && !open, 'hold.none'],
        [open !== undefined && standingOf(open) === 'positive', 'hold.positive'],
      ),
      done: () => void (open && (open.withdrawn = true)),
    }); // prettier-ignore
  },
};

export const testResult: Step = {
  weight: 4,
  calls: ['animals.testResult'],
  draw(shop, dice) {
    const waiting = shop.book.animals.filter((one) => shop.held(one) !== 'free');
    const animal = dice.mostly(waiting, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const named = dice.onceIn(3) && animal.holds.length > 0 ? dice.pick(animal.holds) : undefined;
    const of = named ?? firstLasting(animal);
    const result = dice.pick(['not detected', 'positive', 'none'] as const);
    const reason = dice.onceIn(2) ? dice.pick(REASONS) : '';
    const on = dice.onceIn(3) ? dayNear(dice, shop.today, -140, 1) : null;
    const sample = dice.onceIn(4) ? 'L-9' : '';
    const confirmed = dice.onceIn(2);
    const last = of?.results.at(-1);
    const first = last === undefined || last === 'none';
    const day = on?.day ?? shop.today;
    return act('animals.testResult', { id: animal.id, ...(named && { holdId: named.id }), result, reason, sample, on: on?.day ?? null, confirmed }, {
      refuse: [
        ...because(
          [on !== null && on.wrong !== null, on?.wrong ?? ''],
          [animal === NOBODY, 'animal.unknown'],
          [animal !== NOBODY && (of === undefined || of.withdrawn), 'hold.none'],
        ),
        ...(of ? because(
          [first && result === 'none', 'result.nothing-to-correct'],
          [!first && reason === '', 'result.reason'],
          [day > shop.today, 'date.future'],
          [animal.killDate !== null && day < animal.killDate, 'result.before-kill'],
        ) : []),
        ...(of && !confirmed && !on?.wrong ? because(
          [daysFrom(day, shop.today) > 120, 'date.long-ago'],
          [of.sample !== '' && sample !== '' && sample !== of.sample, 'result.other-sample'],
        ) : []),
      ],
      done: () => void of?.results.push(result),
    }); // prettier-ignore
  },
};

export const reopenAnimal: Step = {
  weight: 1,
  calls: ['animals.reopen'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.book.animals.filter((one) => !isInShop(one)), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    return act('animals.reopen', { id: animal.id, reason: 'handed over by mistake' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [animal !== NOBODY && isInShop(animal), 'animal.not-left'],
        [animal.stage === 'canceled' && quoteOf(shop, animal)?.taken === true, 'reopen.quote-taken'],
      ),
      done() {
        const canceled = animal.stage === 'canceled';
        const quote = quoteOf(shop, animal);
        if (canceled && quote) quote.taken = true;
        const stage = animal.stage === 'released' ? 'ready' : animal.stageBefore;
        Object.assign(animal, { stage, releasedOn: null, disposedOn: null });
        const shared = shop.book.shares.find((one) => one.animal === animal.id);
        if (shared && !canceled) shared.taken = [];
        const given = shop.book.donations.filter((one) => one.animal === animal.id && one.whole);
        if (!canceled) for (const one of given) one.voided = true;
        for (const one of shop.book.belongings)
          if (one.animal === animal.id && one.along) Object.assign(one, { gone: false, along: false });
        const own = shop.ownLot(animal.id);
        if (own && !canceled) Object.assign(own, { left: own.left + own.gone, gone: 0 });
      },
    });
  },
}; // prettier-ignore

const WEIGHED_OUT = ['primal', 'cut', 'grinder', 'packed'];

export const cancel: Step = {
  weight: 2,
  calls: ['animals.cancel'],
  draw(shop, dice) {
    const fresh = shop.inShop.filter(({ stage }) => stage === 'hanging');
    const animal = dice.mostly(fresh.slice(-6), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const weighed = WEIGHED_OUT.some((stage) => shop.weighed({ animal: animal.id, stage }).length > 0);
    return act('animals.cancel', { id: animal.id, reason: 'taken in twice', by: 'EH' }, {
      refuse: because(
        [animal === NOBODY, 'animal.unknown'],
        [!isInShop(animal), 'animal.closed'],
        [weighed, 'cancel.weighed'],
        [shop.bill(animal.id) !== undefined, 'cancel.billed'],
        [shop.paid(animal.id) !== 0, 'cancel.paid'],
        [shop.held(animal) === 'positive', 'cancel.positive'],
      ),
      done() {
        Object.assign(animal, { stage: 'canceled', stageBefore: animal.stage });
        const quote = quoteOf(shop, animal);
        if (quote) quote.taken = false;
      },
    }); // prettier-ignore
  },
};

export const dispose: Step = {
  weight: 1,
  calls: ['animals.dispose'],
  draw(shop, dice) {
    const positive = shop.inShop.filter((one) => shop.held(one) === 'positive');
    const animal = dice.mostly(positive.length > 0 ? positive : shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const reason = dice.onceIn(4) ? '' : 'spoiled';
    const on = dice.onceIn(3) ? dayNear(dice, shop.today, -80, 1) : null;
    const confirmed = dice.onceIn(2);
    const day = on?.day ?? shop.today;
    return act('animals.dispose', { id: animal.id, what: 'All of it', how: 'Landfill', reason, on: on?.day ?? null, confirmed }, {
      refuse: [
        ...because(
          [on !== null && on.wrong !== null, on?.wrong ?? ''],
          [animal === NOBODY, 'animal.unknown'],
          [!isInShop(animal), 'animal.closed'],
          [shop.held(animal) !== 'positive' && reason === '', 'dispose.reason'],
          [day > shop.today, 'date.future'],
          [day < animal.receivedOn, 'date.disposed-before-received'],
        ),
        ...(confirmed || on?.wrong ? [] : because([daysFrom(day, shop.today) > 60, 'date.long-ago'])),
      ],
      done() {
        Object.assign(animal, { stage: 'disposed', disposedOn: day, stageBefore: animal.stage });
        const own = shop.ownLot(animal.id);
        if (own) Object.assign(own, own.left > 0 ? { left: 0, gone: own.left } : { gone: 0 });
      },
    }); // prettier-ignore
  },
};
