/** Grinding: batches of trim and fat, what goes in, what comes out. */
import { act, because, byWeight, type Act, type Step } from '../step.ts';
import { CRUMB, GRAMS, isInShop, markOf, type Shop } from '../shop.ts';
import type { Animal, Batch, Weighing } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { weightNear, type TypedWeight } from '../typed.ts';

export const NO_BATCH = {
  id: 9999,
  animals: [] as number[],
  done: false,
  moreOut: false,
  passes: [],
} as unknown as Batch;
/** Two scales agree within it; more is asked about, once for a batch. */
export const AS_WEIGHED = 1.02;
/** Whatever was added, more than twice of what went in is no sausage. */
const MAX_OUT = 2;

/** What keeps so much more from coming out of a batch. */
export function outOf(shop: Shop, batchId: number, more: number, said: boolean): { refuse: string[]; may: string[] } {
  const [went, out] = [shop.batchTook(batchId), shop.batchOut(batchId) + more];
  if (out <= 0 || went === 0) return { refuse: out > 0 ? ['batch.nothing-in'] : [], may: [] };
  const most = byWeight(out, went * MAX_OUT, 'batch.too-much-out');
  const asked = said || shop.batch(batchId)?.moreOut ? { refuse: [], may: [] } : byWeight(out, went * AS_WEIGHED, 'batch.more-out');
  return { refuse: [...most.refuse, ...asked.refuse], may: [...most.may, ...asked.may] };
} // prettier-ignore

const openBatches = (shop: Shop) => shop.book.batches.filter(({ done }) => !done);

/** The scale's step in the shop's unit, as the shop is set up; another unit leaves the number as it is. */
const SCALE_STEP = 0.05;

/** Trim that half a scale step decides counts as none. */
const trimCrumb = ({ book: { settings } }: Shop): number => (SCALE_STEP * GRAMS[settings.unit]) / 2 + CRUMB;

export const start: Step = {
  weight: 7,
  calls: ['grinder.start'],
  draw(shop, dice) {
    const waiting = shop.inShop.filter(({ id }) => shop.trimLeft(id) > trimCrumb(shop));
    const first = dice.mostly(waiting, [...shop.book.animals, NOBODY]);
    if (!first) return null;
    const second = dice.onceIn(3) ? dice.mostly(waiting.filter((one) => one !== first), shop.book.animals) : undefined; // prettier-ignore
    const animals = second ? [first, second] : [first];
    const fat = dice.pick(['none', 'pork-back-fat', 'own', 'whale']);
    const targetFat = fat === 'none' ? null : dice.pick([0.1, null, 0.02]);
    return begins(shop, animals, { fat, targetFat, product: dice.pick(['Ground', 'Summer sausage']) });
  },
}; // prettier-ignore

/** A batch of these animals. */
export function begins(shop: Shop, animals: readonly Animal[], plan: { fat: string; targetFat: number | null; product: string }): Act {
  const [first, second] = animals;
  const rests = animals.map(({ id }) => shop.trimLeft(id));
  const refuses = animals.filter(
    ({ hunter }) => shop.book.hunters.some((one) => one.id === hunter && one.refusesPooling),
  );
  const held = animals.some((one) => shop.held(one) !== 'free');
  return act('grinder.start', { animals: animals.map(({ id }) => ({ id })), ...plan, by: 'RO' }, {
    refuse: [
      ...because(
        [animals.includes(NOBODY), 'animal.unknown'],
        [first === second, 'trim.twice'],
        [animals.length > 1 && refuses.length > 0, 'batch.no-pooling'],
        [animals.length > 1 && held, 'batch.held-alone'],
        [rests.some((left) => left <= trimCrumb(shop) - HAIR), 'trim.none'],
        [plan.fat === 'whale', 'fat.unknown'],
        [animals.some((one) => !isInShop(one)), 'animal.closed'],
      ),
      ...animals.filter((one) => one !== NOBODY).flatMap((one) => shop.knifeOff(one)),
    ],
    may: because([rests.some((left) => Math.abs(left - trimCrumb(shop)) < HAIR), 'trim.none']),
    done({ id, name }) {
      if (shop.book.batches.some((one) => one.name === name)) throw new Error(`batch ${name} was begun before`);
      if (!name.startsWith(`G${markOf(shop.season)}-`)) throw new Error(`batch ${name} in season ${shop.season}`);
      shop.book.batches.push({ id, name, season: shop.season, animals: animals.map((one) => one.id), done: false, moreOut: false, passes: [] });
    },
  });
} // prettier-ignore
const HAIR = 0.01;

export const weighIn: Step = {
  weight: 12,
  calls: ['grinder.weighIn'],
  draw(shop, dice) {
    const batch = dice.mostly(openBatches(shop), [...shop.book.batches, NO_BATCH]);
    if (!batch) return null;
    return dice.onceIn(3) ? fatIn(shop, dice, batch) : trimIn(shop, dice, batch);
  },
};

type Drawing = (shop: Shop, dice: Parameters<Step['draw']>[1], batch: Batch) => ReturnType<Step['draw']>;

const trimIn: Drawing = (shop, dice, batch) => {
  const planned = batch.animals.flatMap((id) => shop.animal(id) ?? []);
  const animal = dice.mostly(planned.filter((one) => isInShop(one) && shop.trimLeft(one.id) > CRUMB), [...shop.book.animals, NOBODY]) ?? NOBODY; // prettier-ignore
  const left = shop.trimLeft(animal.id);
  const weight = weightNear(shop, dice, Math.max(left, 500) * dice.pick([1, 0.5, 0.9, 1.02]));
  return putsIn(shop, batch, animal, weight, dice.onceIn(2));
}; // prettier-ignore

/** Trim of an animal goes into a batch. */
export function putsIn(shop: Shop, batch: Batch, animal: Animal, weight: TypedWeight, confirmed: boolean): Act {
  const enough = byWeight(weight.grams, shop.trimLeft(animal.id) + CRUMB, 'trim.not-enough');
  return act('grinder.weighIn', { batchId: batch.id, animalId: animal.id, part: 'trim', typed: weight.typed, confirmed, by: 'RO' }, {
    refuse: [...into(shop, batch, animal), ...enough.refuse],
    may: [...enough.may, ...(confirmed ? [] : ['weight.same-again'])],
    done: ({ weighingId, grams }) => gone(shop, { id: weighingId, animal: animal.id, batch: batch.id, lot: null, part: 'trim', grams }, weight.grams),
  });
} // prettier-ignore

const fatIn: Drawing = (shop, dice, batch) => {
  const usable = shop.book.lots.filter(({ animal }) => animal === null || isInShop(shop.animal(animal) ?? NOBODY)).filter(({ left, animal }) => left > CRUMB && (animal === null || batch.animals.includes(animal))); // prettier-ignore
  const lot = dice.mostly(usable, shop.book.lots);
  if (!lot) return null;
  const animal = lot.animal === null ? null : (shop.animal(lot.animal) ?? NOBODY);
  const weight = weightNear(shop, dice, Math.max(lot.left, 500) * dice.pick([0.2, 0.5, 1, 1.02]));
  const confirmed = dice.onceIn(2);
  const enough = byWeight(weight.grams, lot.left + CRUMB, 'fat.not-enough');
  const part = lot.animal === null ? 'fat added' : 'fat saved';
  return act('grinder.weighIn', { batchId: batch.id, fatLotId: lot.id, part, typed: weight.typed, confirmed, by: 'RO' }, {
    refuse: [...into(shop, batch, animal), ...enough.refuse],
    may: [...enough.may, ...(confirmed ? [] : ['weight.same-again'])],
    done: ({ weighingId, grams }) => {
      gone(shop, { id: weighingId, animal: lot.animal, batch: batch.id, lot: lot.id, part, grams }, weight.grams);
      lot.left -= weight.grams;
    },
  });
}; // prettier-ignore

function gone(shop: Shop, into: Pick<Weighing, 'id' | 'animal' | 'batch' | 'lot' | 'part' | 'grams'>, typed: number): void {
  if (Math.abs(into.grams - typed) > 1e-6) throw new Error(`${into.grams} g kept of ${typed} g typed`);
  shop.book.weighings.push({ ...into, stage: 'grinder', primal: null, count: null, voided: false, at: shop.now });
} // prettier-ignore

/** What keeps meat out of a batch. Bought fat (no animal) goes in with held meat only where that is alone. */
function into(shop: Shop, batch: Batch, animal: Animal | null): string[] {
  const inIt = batch.animals.filter((id) => shop.wentInto(batch.id, id));
  const isHeld = animal !== null && shop.held(animal) !== 'free';
  const pooled = [...new Set([...inIt, ...(animal ? [animal.id] : [])])].filter((id) =>
    batch.animals.includes(id),
  );
  const refuses = pooled.some((id) =>
    shop.book.hunters.some((one) => one.id === shop.animal(id)?.hunter && one.refusesPooling),
  );
  const together = (isHeld ? batch.animals : [...new Set([...inIt, ...(animal ? [animal.id] : [])])])
    .flatMap((id) => shop.animal(id) ?? []); // prettier-ignore
  return [
    ...because(
      [batch === NO_BATCH, 'batch.unknown'],
      [batch.done, 'batch.done'],
      [batch !== NO_BATCH && animal !== null && !batch.animals.includes(animal.id), 'batch.not-in'],
      [together.length > 1 && together.some((one) => shop.held(one) !== 'free'), 'batch.held-alone'],
      [shop.reachedBy(batch).length > 0, 'batch.affected'],
      [animal !== null && pooled.length > 1 && refuses, 'batch.no-pooling'],
      [animal !== null && animal !== NOBODY && !isInShop(animal), 'animal.closed'],
    ),
    ...together.flatMap((one) => shop.knifeOff(one)),
  ];
}

export const pack: Step = {
  weight: 8,
  calls: ['grinder.pack'],
  draw(shop, dice) {
    const batch = dice.mostly(openBatches(shop).filter(({ id }) => shop.batchIn(id) > 0), [...shop.book.batches, NO_BATCH]);
    if (!batch) return null;
    const [went, out] = [shop.batchTook(batch.id), shop.batchOut(batch.id)];
    const weight = weightNear(shop, dice, Math.max(went - out, 300) * dice.pick([0.97, 0.5, 1.01, 1.06, 2.5]));
    const reason = dice.onceIn(3) ? 'water added' : '';
    const count = dice.pick([20, 1, 7]);
    const confirmed = dice.onceIn(2);
    const more = outOf(shop, batch.id, weight.grams, confirmed && reason !== '');
    return act('grinder.pack', { batchId: batch.id, product: 'Ground', count, typed: weight.typed, confirmed, reason, by: 'EH' }, {
      refuse: [
        ...because([batch === NO_BATCH, 'batch.unknown'], [batch.done, 'batch.done'], [batch !== NO_BATCH && went === 0, 'batch.nothing-in']),
        ...more.refuse,
      ],
      may: [...more.may, ...(confirmed ? [] : ['weight.same-again'])],
      done({ weighingId }) {
        if (out + weight.grams > went * AS_WEIGHED) batch.moreOut = true;
        shop.book.weighings.push({
          id: weighingId, animal: null, batch: batch.id, lot: null, stage: 'packed', part: 'package', primal: null, count, grams: weight.grams, voided: false, at: shop.now,
        });
      },
    });
  },
}; // prettier-ignore

export const finish: Step = {
  weight: 5,
  calls: ['grinder.finish'],
  draw(shop, dice) {
    const batch = dice.mostly(openBatches(shop).filter(({ id }) => shop.batchOut(id) > 0), [...shop.book.batches, NO_BATCH]);
    if (!batch) return null;
    const [confirmed, reason] = dice.pick([[true, 'water added'], [false, '']] as const);
    const more = outOf(shop, batch.id, 0, confirmed);
    return act('grinder.finish', { batchId: batch.id, confirmed, reason }, {
      refuse: [
        ...because([batch === NO_BATCH, 'batch.unknown'], [batch.done, 'batch.done'], [shop.batchOut(batch.id) === 0, 'batch.nothing-out']),
        ...more.refuse,
      ],
      may: more.may,
      done() {
        batch.done = true;
        if (shop.batchOut(batch.id) > shop.batchTook(batch.id) * AS_WEIGHED) batch.moreOut = true;
      },
    });
  },
}; // prettier-ignore

export const reopenBatch: Step = {
  weight: 1,
  calls: ['grinder.reopen'],
  draw(shop, dice) {
    const batch = dice.mostly(shop.book.batches.filter(({ done }) => done), [...shop.book.batches, NO_BATCH]);
    if (!batch) return null;
    return act('grinder.reopen', { batchId: batch.id, reason: 'a tote was missing' }, {
      refuse: because([batch === NO_BATCH, 'batch.unknown'], [batch !== NO_BATCH && !batch.done, 'batch.not-done']),
      done: () => void (batch.done = false),
    });
  },
}; // prettier-ignore

export const pass: Step = {
  weight: 1,
  calls: ['grinder.pass'],
  draw(shop, dice) {
    const batch = dice.mostly(shop.book.batches, [NO_BATCH]);
    if (!batch) return null;
    const tempTyped = dice.pick(['', '38', 'cold']);
    return act('grinder.pass', { batchId: batch.id, plate: '4.5 mm', tempTyped }, {
      refuse: because([batch === NO_BATCH, 'batch.unknown'], [batch.done, 'batch.done'], [tempTyped === 'cold', 'temperature.unreadable']),
      done: () => void batch.passes.push(shop.now),
    });
  },
}; // prettier-ignore

export const fatTest: Step = {
  weight: 2,
  calls: ['grinder.fatTest'],
  draw(shop, dice) {
    const batch = dice.mostly(shop.book.batches, [NO_BATCH]);
    if (!batch) return null;
    const percent = dice.pick([9, 0, 100, 101]);
    return act('grinder.fatTest', { batchId: batch.id, percent, method: 'Tester' }, {
      refuse: because([batch === NO_BATCH, 'batch.unknown'], [percent > 100, 'fat.range']),
    });
  },
}; // prettier-ignore

export const cleaned: Step = {
  weight: 1,
  calls: ['grinder.saveCleaning'],
  draw(shop, dice) {
    const batch = dice.mostly(shop.book.batches, [NO_BATCH]);
    return act('grinder.saveCleaning', { batchId: batch?.id ?? null, how: 'taken apart and washed' }, {
      refuse: because([batch === NO_BATCH, 'batch.unknown']),
      done: ({ id }) => void shop.book.cleanings.push({ id, batch: batch?.id ?? null, voided: false, at: shop.now }),
    });
  },
}; // prettier-ignore

export const voidCleaning: Step = {
  weight: 1,
  calls: ['grinder.voidCleaning'],
  draw(shop, dice) {
    const cleaning = dice.mostly(shop.book.cleanings.filter(({ voided }) => !voided), shop.book.cleanings);
    if (!cleaning) return null;
    return act('grinder.voidCleaning', { cleaningId: cleaning.id, reason: 'not yet' }, {
      refuse: because([cleaning.voided, 'cleaning.voided']),
      done: () => void (cleaning.voided = true),
    });
  },
}; // prettier-ignore
