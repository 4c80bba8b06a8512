/** Weights of animals: on the hook, at the Table, packed; corrected and voided; parts that there is none of. */
import { act, because, byWeight, type Act, type Step } from '../step.ts';
import type { Dice } from '../dice.ts';
import { CRUMB, isInShop, SCALES_DIFFER, type Shop } from '../shop.ts';
import type { Animal, Part, Weighing } from '../state.ts';
import { NOBODY } from './nobody.ts';
import { outOf } from './grinder.ts';
import { NO_WEIGHTS, REASONS, weightNear, type TypedWeight } from '../typed.ts';
import { TYPICAL } from '../kinds.ts';

export const NOTHING = {
  id: 9999,
  voided: false,
  part: 'bone',
  stage: 'cut',
  grams: 1,
  animal: null,
  batch: null,
} as unknown as Weighing;
/** What is weighed at a stage, and about which share of the animal it is. */
const SHARES = {
  'whole cuts': 0.3,
  trim: 0.25,
  bone: 0.2,
  sinew: 0.03,
  'fat saved': 0.04,
  damage: 0.02,
} as const;
export const CUTS = Object.keys(SHARES) as (keyof typeof SHARES)[];

interface Weight extends TypedWeight {
  wrong: string[];
}
function weightOrSlip(shop: Shop, dice: Dice, grams: number): Weight {
  if (dice.onceIn(30)) {
    const [typed, code] = dice.pick(NO_WEIGHTS);
    return { typed, grams: 0, wrong: [code] };
  }
  return { ...weightNear(shop, dice, grams), wrong: [] };
}

export const weigh: Step = {
  weight: 26,
  calls: ['table.weigh'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop.filter(({ stage }) => stage !== 'ready'), [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const onHook = shop.whole(animal.id) === null || dice.onceIn(8);
    const stage = onHook ? dice.pick(['hanging', 'received'] as const) : dice.pick(['cut', 'cut', 'cut', 'packed', 'primal'] as const);
    const part: Part = stage === 'cut' ? dice.pick(CUTS) : stage === 'packed' ? 'package' : stage === 'primal' ? 'primal' : 'carcass';
    const primal = stage === 'primal' ? dice.pick(['haunch', 'shoulder', 'wing']) : null;
    const share = stage === 'cut' ? SHARES[part as keyof typeof SHARES] : stage === 'packed' ? 0.25 : stage === 'primal' ? 0.19 : 1;
    const whole = onHook ? (TYPICAL[animal.species] ?? 50_000) : (shop.whole(animal.id) ?? 50_000);
    const tenths = dice.onceIn(15) ? 40 : dice.between(6, 13);
    const weight = weightOrSlip(shop, dice, (whole * share * tenths) / 10);
    const count = stage === 'packed' ? dice.pick([12, 1, 40]) : null;
    const confirmed = dice.onceIn(2);
    return weighs(shop, animal, { stage, part, primal, count, weight, confirmed });
  },
}; // prettier-ignore

interface Put {
  stage: 'received' | 'hanging' | 'primal' | 'cut' | 'packed';
  part: Part;
  primal: string | null;
  count: number | null;
  weight: TypedWeight & { wrong?: string[] };
  confirmed: boolean;
}

/** One weight of an animal. */
export function weighs(shop: Shop, animal: Animal, { stage, part, primal, count, weight, confirmed }: Put): Act {
  const { refuse, may } = mayWeigh(shop, animal, { stage, primal, grams: weight.grams });
  return act('table.weigh', {
    animalId: animal.id, stage, part: part as 'trim', typed: weight.typed, confirmed, by: 'RO',
    ...(primal && { primal }), ...(stage === 'packed' && { product: 'Steaks', count }),
  }, {
    refuse: [...refuse, ...(weight.wrong ?? [])],
    may: [...may, ...(confirmed ? [] : ['weight.unlikely', 'weight.over', 'weight.same-again', 'weight.hung-again'])],
    done({ weighingId, grams }) {
      keep(shop, animal, { id: weighingId, stage, part, primal, count, grams: weight.grams }, grams);
      if (stage === 'cut' && animal.stage === 'hanging') animal.stage = 'cutting';
    },
  });
} // prettier-ignore

/** What keeps a weight from an animal: it left, it is held, it cannot be so heavy, it came without that piece. */
export function mayWeigh(
  shop: Shop,
  animal: Animal,
  given: { stage: string; primal: string | null; grams: number; corrects?: Weighing },
): { refuse: string[]; may: string[] } {
  const { stage, primal, grams, corrects } = given;
  const cutting = ['cut', 'primal', 'packed'].includes(stage);
  const whole = cutting ? shop.whole(animal.id, corrects) : null;
  const received = shop.weighed({ animal: animal.id, stage: 'received' }).filter((one) => one !== corrects);
  const hangs = shop.weighed({ animal: animal.id, stage: 'hanging' }).filter((one) => one !== corrects);
  const sum = (rows: readonly Weighing[]) => rows.reduce((total, one) => total + one.grams, 0);
  const over = cutting
    ? whole === null ? null : byWeight(grams, whole * SCALES_DIFFER, 'weight.more-than-animal')
    : stage === 'hanging' && received.length > 0
      ? byWeight(grams + sum(hangs), sum(received) * SCALES_DIFFER, 'weight.more-than-animal')
      : null; // prettier-ignore
  return {
    refuse: [
      ...because(
        [animal === NOBODY, 'animal.unknown'],
        [!isInShop(animal), 'animal.closed'],
        [primal === 'wing', 'primal.unknown'],
        [primal !== null && primal !== 'wing' && animal.pieces.length > 0 && !animal.pieces.some((one) => one.primal === primal), 'primal.not-brought'],
      ),
      ...(cutting && !corrects ? shop.knifeOff(animal) : []),
      ...(over?.refuse ?? []),
    ],
    may: over?.may ?? [],
  }; // prettier-ignore
}

/** Writes a weight into the model, and the fat that it stands for. */
export function keep(
  shop: Shop,
  animal: Animal,
  weighing: Pick<Weighing, 'id' | 'stage' | 'part' | 'primal' | 'count' | 'grams'>,
  said: number,
): void {
  if (Math.abs(said - weighing.grams) > 1e-6) throw new Error(`${said} g kept of ${weighing.grams} g typed`);
  shop.book.weighings.push({ ...weighing, animal: animal.id, batch: null, lot: null, voided: false });
  if (weighing.part !== 'fat saved') return;
  const own = shop.ownLot(animal.id);
  if (own) Object.assign(own, { came: own.came + weighing.grams, left: own.left + weighing.grams });
  else shop.book.lots.push({ id: shop.newest('fat_lot'), source: 'own', animal: animal.id, came: weighing.grams, left: weighing.grams, gone: 0 });
} // prettier-ignore

/** What a part may not fall below once a weight of it is gone: what the grinder already took of it. */
export function overdrawn(shop: Shop, old: Weighing, instead: number): { refuse: string[]; may: string[] } {
  if (old.animal === null || old.stage !== 'cut') return { refuse: [], may: [] };
  if (old.part === 'trim')
    return byWeight(-(shop.trimLeft(old.animal) - old.grams + instead), CRUMB, 'weighing.used');
  const own = shop.ownLot(old.animal);
  return old.part === 'fat saved' && own
    ? byWeight(-(own.left - old.grams + instead), CRUMB, 'weighing.used')
    : { refuse: [], may: [] };
}

/** Takes a weight out of the model, and gives back what it had moved. */
export function takeBack(shop: Shop, old: Weighing): void {
  old.voided = true;
  const lot = old.lot === null ? undefined : shop.lot(old.lot);
  // A lot that was counted meanwhile holds it already: never more than came in.
  if (lot) lot.left += Math.min(old.grams, Math.max(0, lot.came - lot.left));
  const own = old.stage === 'cut' && old.part === 'fat saved' && old.animal !== null ? shop.ownLot(old.animal) : undefined; // prettier-ignore
  if (own) Object.assign(own, { came: own.came - old.grams, left: own.left - old.grams });
}

export function someWeighing(shop: Shop, dice: Dice): Weighing | undefined {
  const of = shop.weighed({}).filter((one) => one.animal === null || isInShop(shop.animal(one.animal) ?? NOBODY));
  return dice.mostly(of.slice(-30), [...shop.book.weighings, NOTHING]);
} // prettier-ignore

/** Why this weight may not be touched at all. */
export function closed(shop: Shop, old: Weighing): string[] {
  const animal = shop.animal(old.animal);
  return because(
    [old === NOTHING, 'weighing.unknown'],
    [old.voided, 'weighing.voided'],
    [animal !== undefined && !isInShop(animal), 'animal.closed'],
    [old.batch !== null && shop.batch(old.batch)?.done === true, 'batch.done'],
  );
}

/** Whether a weight is one of an animal in a batch that was ground, with meat of one that is held. */
function heldIn(shop: Shop, old: Weighing): boolean {
  const batch = old.batch === null || old.animal === null ? undefined : shop.batch(old.batch);
  if (!batch) return false;
  const ground = batch.passes.length > 0 || shop.book.weighings.some((one) => one.batch === batch.id && one.stage === 'packed');
  const animals = batch.animals.filter((id) => shop.wentInto(batch.id, id));
  return ground && animals.some((id) => shop.held(shop.animal(id) as Animal) !== 'free');
} // prettier-ignore

/** Whether an animal, or a batch with its meat, would be reached by a positive one no more without this weight. */
function frees(shop: Shop, old: Weighing): boolean {
  if (old === NOTHING || old.voided) return false;
  const before = shop.reachedAnimals();
  old.voided = true;
  const after = shop.reachedAnimals();
  old.voided = false;
  return [...before].some((one) => !after.has(one));
}

export const voidWeight: Step = {
  weight: 3,
  calls: ['table.void'],
  draw(shop, dice) {
    const old = someWeighing(shop, dice);
    if (!old) return null;
    const rest = overdrawn(shop, old, 0);
    return act('table.void', { weighingId: old.id, reason: dice.pick(REASONS), by: 'MB' }, {
      refuse: [...closed(shop, old), ...rest.refuse, ...because([heldIn(shop, old), 'batch.held-in'], [frees(shop, old), 'batch.reached-out'])],
      may: rest.may,
      done: () => takeBack(shop, old),
    }); // prettier-ignore
  },
};

export const correct: Step = {
  weight: 4,
  calls: ['table.correct'],
  draw(shop, dice) {
    const old = someWeighing(shop, dice);
    if (!old) return null;
    const weight = weightOrSlip(shop, dice, (old.grams * dice.between(5, 14)) / 10);
    const confirmed = dice.onceIn(2);
    const animal = shop.animal(old.animal) ?? NOBODY;
    const checks = old.batch === null
      ? [mayWeigh(shop, animal, { ...old, grams: weight.grams, corrects: old }), overdrawn(shop, old, weight.grams)]
      : [intoBatch(shop, old, weight.grams)];
    return act('table.correct', { weighingId: old.id, typed: weight.typed, confirmed, by: 'RO', tareTyped: '' }, {
      refuse: [...closed(shop, old), ...weight.wrong, ...(old === NOTHING ? [] : checks.flatMap(({ refuse }) => refuse))],
      may: [...checks.flatMap(({ may }) => may), ...(confirmed ? [] : ['weight.unlikely', 'weight.over'])],
      done({ weighingId }) {
        takeBack(shop, old);
        if (old.stage === 'cut' && animal.stage === 'hanging') animal.stage = 'cutting';
        const again = { ...old, id: weighingId, grams: weight.grams, voided: false };
        if (old.batch === null) keep(shop, animal, again, weight.grams);
        else {
          shop.book.weighings.push(again);
          const lot = shop.lot(old.lot);
          if (lot) lot.left -= again.grams;
        }
      },
    });
  },
}; // prettier-ignore

/** What a weight of a batch may not exceed: the trim or fat that there is once the old one is given back. */
function intoBatch(shop: Shop, old: Weighing, grams: number): { refuse: string[]; may: string[] } {
  if (old.stage === 'packed' && old.batch !== null)
    return outOf(shop, old.batch, grams - (old.voided ? 0 : old.grams), false);
  if (old.part === 'trim' && old.animal !== null)
    return byWeight(grams, shop.trimLeft(old.animal) + old.grams + CRUMB, 'trim.not-enough');
  const lot = shop.lot(old.lot);
  return lot
    ? byWeight(grams, Math.max(lot.left, Math.min(lot.came, lot.left + old.grams)) + CRUMB, 'fat.not-enough')
    : { refuse: [], may: [] };
}

export const none: Step = {
  weight: 2,
  calls: ['table.stateNone'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    const part = dice.pick(['damage', 'fat saved', 'sinew', 'bone'] as const);
    const weighed = ['cut', 'grinder'].some((stage) => shop.weighed({ animal: animal.id, stage, part }).length > 0);
    const stated = shop.book.nones.some((one) => one.animal === animal.id && one.part === part && !one.voided);
    return act('table.stateNone', { animalId: animal.id, part, by: 'RO' }, {
      refuse: [
        ...because(
          [animal === NOBODY, 'animal.unknown'], [!isInShop(animal), 'animal.closed'], [weighed, 'none.weighed'], [stated, 'none.stated'],
        ),
        ...shop.knifeOff(animal),
      ],
      done: ({ noneId }) => void shop.book.nones.push({ id: noneId, animal: animal.id, part, voided: false }),
    });
  },
}; // prettier-ignore

export const voidNone: Step = {
  weight: 1,
  calls: ['table.voidNone'],
  draw(shop, dice) {
    const stated = dice.mostly(shop.book.nones.filter(({ voided }) => !voided), shop.book.nones);
    if (!stated) return null;
    return act('table.voidNone', { noneId: stated.id, reason: 'there was some' }, {
      refuse: because([stated.voided, 'none.voided'], [!isInShop(shop.animal(stated.animal) ?? NOBODY), 'animal.closed']),
      done: () => void (stated.voided = true),
    });
  },
}; // prettier-ignore

export const setStage: Step = {
  weight: 5,
  calls: ['animals.setStage'],
  draw(shop, dice) {
    const animal = dice.mostly(shop.inShop, [...shop.book.animals, NOBODY]);
    if (!animal) return null;
    return movesTo(shop, animal, dice.pick(['ready', 'packing', 'cutting', 'hanging'] as const));
  },
}; // prettier-ignore

const ORDER = ['hanging', 'cutting', 'packing', 'ready'] as const;

/** An animal goes a stage on, or back. */
export function movesTo(shop: Shop, animal: Animal, stage: (typeof ORDER)[number]): Act {
  const onward = ORDER.indexOf(stage) > ORDER.indexOf(animal.stage as typeof stage);
  return act('animals.setStage', { id: animal.id, stage, answer: 'weighed again', confirmed: true, by: 'EH' }, {
    refuse: [
      ...because([animal === NOBODY, 'animal.unknown'], [!isInShop(animal), 'animal.closed']),
      ...(onward ? shop.knifeOff(animal) : []),
      ...(stage === 'ready' ? shop.pooledOff(animal) : []),
    ],
    done: () => void (animal.stage = stage),
  });
} // prettier-ignore
