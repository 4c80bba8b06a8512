/** Batches made by a recipe: opened, weighed, stuffed, packed, and everything that may be done in the wrong order. */
import { act, because, byWeight, type Act, type Step } from '../step.ts';
import type { Dice } from '../dice.ts';
import type { Batch } from '../state.ts';
import {
  aboveLimit, addedOf, heldMeat, leftFor, mayBeReady, moreOut, packedOf, scaled, stageOf, standingMade,
} from '../smokehouse.ts'; // prettier-ignore
import type { Made, Recipe } from '../smokehouse-state.ts';
import { markOf, type Shop } from '../shop.ts';
import { AS_WEIGHED, NO_BATCH, outOf } from './grinder.ts';
import { same } from './money-look.ts';
import { NO_RECIPE } from './recipes.ts';
import { inPounds, type TypedWeight } from '../typed.ts';

export const NO_MADE: Made = {
  id: 9999, name: '', season: 0, recipe: 0, batch: 0, voided: false, start: null, weighed: [], stages: [], analyses: [],
}; // prettier-ignore
/** Two weights of a grind differ by less where nothing changed. */
const SAME_GRAMS = 1;
/** A rounded portion is no other weight. */
const ROUNDED = 5;
const HAIR = 0.05;
/** More than asked for by so much is asked about. */
const UNLIKE = 1.1;
const STEP = 1;

const recipeOf = (shop: Shop, { recipe }: Made): Recipe =>
  shop.book.smokehouse.recipes.find(({ id }) => id === recipe) ?? NO_RECIPE;
export const someMade = (shop: Shop, dice: Dice, suits: (made: Made) => boolean): Made =>
  dice.mostly(standingMade(shop).filter(suits), [...shop.book.smokehouse.made, NO_MADE]) ?? NO_MADE;
const isDone = (shop: Shop, made: Made): boolean => shop.batch(made.batch)?.done === true;

/** Why nothing may be done with it. */
export const lost = (made: Made): string[] =>
  because([made === NO_MADE, 'made.unknown'], [made.voided, 'made.voided']);

/** A recipe is made of a grind. */
export function opens(shop: Shop, recipe: Recipe, batch: Batch): Act {
  return act('made.open', { recipeId: recipe.id, batchId: batch.id, by: 'RO' }, {
    refuse: [
      ...because(
        [recipe === NO_RECIPE, 'recipe.unknown'], [recipe.away, 'recipe.archived'], [batch === NO_BATCH, 'batch.unknown'], [batch.done, 'batch.done'],
      ),
      ...heldMeat(shop, shop.batch(batch.id)),
    ],
    done({ id, name, batchId }) {
      const { made } = shop.book.smokehouse;
      if (made.some((one) => one.name === name)) throw new Error(`batch ${name} was begun before`);
      if (!name.startsWith(`M${markOf(shop.season)}-`)) throw new Error(`batch ${name} in season ${shop.season}`);
      same('the grind', batchId, batch.id);
      made.push({ ...NO_MADE, id, name, season: shop.season, recipe: recipe.id, batch: batch.id, weighed: [], stages: [], analyses: [] });
    },
  });
} // prettier-ignore

export const openMade: Step = {
  weight: 1,
  calls: ['made.open'],
  draw(shop, dice) {
    const usable = shop.book.smokehouse.recipes.filter(({ ready, away }) => !ready && !away);
    const recipe = dice.mostly(usable, [...shop.book.smokehouse.recipes.filter(({ ready }) => !ready), NO_RECIPE]);
    const open = shop.book.batches.filter(({ done, id }) => !done && shop.batchIn(id) > 0);
    const batch = dice.mostly(open, [...shop.book.batches, NO_BATCH]);
    return recipe && batch ? opens(shop, recipe, batch) : null;
  },
}; // prettier-ignore

/** What keeps a batch from starting on so much meat. */
function mayStart(shop: Shop, made: Made, portion: TypedWeight | null): { refuse: string[]; may: string[] } {
  if (made === NO_MADE || made.voided) return { refuse: lost(made), may: [] };
  const left = leftFor(shop, made);
  const { cured } = recipeOf(shop, made);
  const strength = shop.book.smokehouse.ingredients.find(({ id }) => id === cured?.cure)?.strength ?? null;
  const enough = portion ? byWeight(portion.grams, left + ROUNDED, 'made.not-enough') : { refuse: [], may: [] };
  const grams = portion?.grams ?? left;
  // Never rounded up, so what is asked for is no more than the recipe says.
  const cure = cured && strength !== null && grams > 0 ? aboveLimit(scaled(cured.ounces, grams) - (cured.ounces > 4 ? STEP : 0), strength, grams) : { refuse: [], may: [] };
  return {
    refuse: [
      ...because(
        [isDone(shop, made), 'batch.done'], [stageOf(made, 'stuffed') !== null, 'made.stuffed'], [left <= 0, 'made.no-meat'],
        [cured !== null && strength === null, 'cure.strength-missing'],
      ),
      ...heldMeat(shop, shop.batch(made.batch)),
      ...enough.refuse,
      ...cure.refuse,
    ],
    may: [...enough.may, ...cure.may, ...(left < HAIR ? ['made.no-meat'] : [])],
  };
} // prettier-ignore

/** Its amounts are worked out for all that is left of the grind, or for a part of it. */
export function starts(shop: Shop, made: Made, portion: TypedWeight | null): Act {
  const { cured } = recipeOf(shop, made);
  const strength = shop.book.smokehouse.ingredients.find(({ id }) => id === cured?.cure)?.strength ?? null;
  return act('made.start', { id: made.id, portionTyped: portion?.typed ?? '', by: 'RO' }, {
    ...mayStart(shop, made, portion),
    done() {
      const grams = portion?.grams ?? leftFor(shop, made);
      made.start = { grams, portion: portion !== null, cured: cured && { ...cured, strength } };
    },
  });
} // prettier-ignore

export const startMade: Step = {
  weight: 1,
  calls: ['made.start', 'made.plan'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ stages, start }) => stages.length === 0 && start === null);
    const portion = dice.onceIn(4) ? inPounds(Math.max(300, leftFor(shop, made) * dice.pick([0.5, 0.9, 1.2]))) : null;
    if (!dice.onceIn(4)) return starts(shop, made, portion);
    const { refuse, may } = mayStart(shop, made, portion);
    // A plan tells of limits instead of refusing, and may be looked at whatever is held.
    const refused = refuse.filter((code) => ['made.unknown', 'made.voided', 'made.no-meat', 'made.not-enough'].includes(code));
    return act('made.plan', { id: made.id, portionTyped: portion?.typed ?? '' }, {
      refuse: refused,
      may: may.filter((code) => ['made.no-meat', 'made.not-enough'].includes(code)),
      done({ blockGrams, mayStart: says }) {
        const grams = portion?.grams ?? leftFor(shop, made);
        if (Math.abs(blockGrams - grams) > HAIR) throw new Error(`${blockGrams} g of meat, the model ${grams} g`);
        const stopped = refuse.some((code) => code.startsWith('cure.'));
        if (!may.includes('cure.above-limit')) same('may start', says, !stopped);
      },
    });
  },
}; // prettier-ignore

/** So many grams of an ingredient are weighed. */
export function weighsIn(shop: Shop, made: Made, what: 'salt' | 'cure', factor: number, { confirmed, lot }: { confirmed: boolean; lot: string }): Act {
  const { start } = made;
  const cured = start?.cured ?? null;
  const ounces = cured && (what === 'salt' ? 28 : cured.ounces);
  const asked = start && ounces ? scaled(ounces, start.grams) : 100;
  const grams = Math.max(1, Math.floor(asked * factor));
  const ingredient = cured ? cured[what] : (shop.book.smokehouse.ingredients[0]?.id ?? 9999);
  const before = made.weighed.filter((one) => !one.voided && one.ingredient === ingredient).reduce((total, one) => total + one.grams, 0);
  const isCure = cured !== null && what === 'cure';
  const limit = isCure && start ? aboveLimit(before + grams, cured.strength ?? 0, start.grams) : { refuse: [], may: [] };
  const over = before + grams - (asked * UNLIKE + 2 * STEP);
  const near = Math.abs(over) < 2 * STEP;
  return act('made.weigh', { id: made.id, ingredientId: ingredient, typed: String(grams), lot, confirmed, by: 'RO' }, {
    refuse: [
      ...lost(made),
      ...because(
        [start === null, 'made.not-started'],
        [isDone(shop, made), 'batch.done'],
        [stageOf(made, 'stuffed') !== null, 'made.stuffed'],
        [start !== null && cured === null, 'made.not-asked'],
        [isCure && lot === '', 'made.lot-needed'],
        [cured !== null && !confirmed && over > 0 && !near, 'made.unlike'],
      ),
      ...limit.refuse,
    ],
    may: [...limit.may, ...(near ? ['made.unlike'] : [])],
    done: ({ id }) => void made.weighed.push({ id, ingredient, grams, voided: false }),
  });
} // prettier-ignore

export const weighIngredient: Step = {
  weight: 1.5,
  calls: ['made.weigh'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ start, stages }) => start !== null && stages.length === 0);
    const how = { confirmed: dice.onceIn(3), lot: dice.pick(['A-7', '']) };
    return weighsIn(shop, made, dice.pick(['salt', 'cure'] as const), dice.pick([1, 0.5, 0.9, 1.4]), how);
  },
};

export const voidIngredient: Step = {
  weight: 0.35,
  calls: ['made.voidWeighed'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ weighed }) => weighed.length > 0);
    const row = dice.mostly(made.weighed.filter(({ voided }) => !voided), made.weighed) ?? { id: 99999, voided: false };
    const unknown = row.id === 99999;
    return act('made.voidWeighed', { weighedId: row.id, reason: 'wrong bowl' }, {
      refuse: unknown ? ['made.weight-unknown'] : [
        ...lost(made),
        ...because([row.voided, 'made.weight-voided'], [isDone(shop, made), 'batch.done'], [stageOf(made, 'stuffed') !== null, 'made.stuffed']),
      ],
      done: () => void (row.voided = true),
    });
  },
}; // prettier-ignore

/** What was stuffed, or came out of the oven. */
export function stages(shop: Shop, made: Made, stage: 'stuffed' | 'cooked', { typed, grams }: TypedWeight): Act {
  const { start } = made;
  const left = leftFor(shop, made);
  const stuffed = stageOf(made, 'stuffed');
  const changed = start && (start.portion ? start.grams - left : Math.abs(left - start.grams));
  const cureWeighed = !start?.cured || made.weighed.some((one) => !one.voided && one.ingredient === start.cured?.cure);
  const into = stage === 'stuffed' ? (start?.grams ?? 0) + addedOf(made) : (stuffed ?? 0);
  const more = start && (stage === 'stuffed' || stuffed !== null) ? moreOut((stageOf(made, stage) ?? 0) + grams, into) : { refuse: [], may: [] };
  const isNear = changed !== null && Math.abs(changed - SAME_GRAMS) < HAIR;
  return act('made.stage', { id: made.id, stage, typed, by: 'RO' }, {
    refuse: [
      ...lost(made),
      ...because([start === null, 'made.not-started']),
      ...(stage === 'stuffed' && start ? [
        ...heldMeat(shop, shop.batch(made.batch)),
        ...because([changed !== null && changed > SAME_GRAMS && !isNear, 'made.meat-changed'], [!cureWeighed, 'made.cure-not-weighed']),
      ] : because([stage === 'cooked' && stuffed === null, 'made.not-stuffed'])),
      ...more.refuse,
    ],
    may: [...more.may, ...(isNear ? ['made.meat-changed'] : [])],
    done: ({ id }) => void made.stages.push({ id, stage, grams, voided: false }),
  });
} // prettier-ignore

export const stageMade: Step = {
  weight: 1.25,
  calls: ['made.stage'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ start }) => start !== null);
    const stage = dice.pick(['stuffed', 'stuffed', 'cooked'] as const);
    const whole =
      stage === 'stuffed' ? (made.start?.grams ?? 900) + addedOf(made) : (stageOf(made, 'stuffed') ?? 900);
    return stages(shop, made, stage, inPounds(Math.max(300, whole * dice.pick([0.99, 0.8, 0.5, 1.1]))));
  },
};

export const voidStage: Step = {
  weight: 0.3,
  calls: ['made.voidStage'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ stages: of }) => of.length > 0);
    const row = dice.mostly(made.stages.filter(({ voided }) => !voided), made.stages);
    if (!row) return act('made.voidStage', { stageId: 99999, reason: 'wrong truck' }, { refuse: ['made.weight-unknown'] });
    const out = Math.max(stageOf(made, 'cooked') ?? 0, packedOf(shop, made) ?? 0);
    const more = row.stage === 'stuffed' && !row.voided ? moreOut(out, (stageOf(made, 'stuffed') ?? 0) - row.grams) : { refuse: [], may: [] };
    return act('made.voidStage', { stageId: row.id, reason: 'wrong truck' }, {
      refuse: [...lost(made), ...because([row.voided, 'made.weight-voided']), ...more.refuse],
      may: more.may,
      done: () => void (row.voided = true),
    });
  },
}; // prettier-ignore

/** Packages of the product, which are packages of its grind. */
export function packs(shop: Shop, made: Made, { typed, grams }: TypedWeight, { count, confirmed, reason }: { count: number; confirmed: boolean; reason: string }): Act {
  const { start } = made;
  const stuffed = stageOf(made, 'stuffed');
  const raw = start !== null && start.cured === null;
  const more = start ? moreOut((packedOf(shop, made) ?? 0) + grams, stuffed ?? start.grams + addedOf(made)) : { refuse: [], may: [] };
  const grind = outOf(shop, made.batch, grams, confirmed && reason !== '');
  return act('made.pack', { id: made.id, count, typed, reason, confirmed, by: 'EH' }, {
    refuse: [
      ...lost(made),
      ...because([start === null, 'made.not-started'], [isDone(shop, made), 'batch.done'], [start !== null && stuffed === null && !raw, 'made.not-stuffed']),
      ...(start && (stuffed !== null || raw) ? more.refuse : []),
      ...grind.refuse,
    ],
    may: [...more.may, ...grind.may, ...(confirmed ? [] : ['weight.same-again'])],
    done({ weighingId }) {
      const batch = shop.batch(made.batch);
      if (batch && shop.batchOut(made.batch) + grams > shop.batchTook(made.batch) * AS_WEIGHED) batch.moreOut = true;
      shop.book.weighings.push({
        id: weighingId, animal: null, batch: made.batch, lot: null, stage: 'packed', part: 'package', primal: null, count, grams, voided: false, at: shop.now, made: made.id,
      });
    },
  });
} // prettier-ignore

export const packMade: Step = {
  weight: 1,
  calls: ['made.pack'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ start, stages: of }) => start !== null && (of.length > 0 || start.cured === null));
    const whole = stageOf(made, 'cooked') ?? stageOf(made, 'stuffed') ?? made.start?.grams ?? 900;
    const weight = inPounds(Math.max(200, whole * dice.pick([0.95, 0.5, 1.1])));
    return packs(shop, made, weight, { count: dice.pick([20, 1]), confirmed: dice.onceIn(2), reason: dice.onceIn(3) ? 'water' : '' });
  },
}; // prettier-ignore

export const analyse: Step = {
  weight: 0.2,
  calls: ['made.analyse'],
  draw(shop, dice) {
    const made = someMade(shop, dice, () => true);
    const typed = dice.pick(['5.1', '15', 'sour']);
    return act('made.analyse', { id: made.id, what: 'ph', typed, method: 'meter' }, {
      refuse: [...lost(made), ...because([typed !== '5.1', 'analysis.range'])],
      done: ({ id }) => void made.analyses.push({ id, voided: false }),
    });
  },
}; // prettier-ignore

export const voidAnalysis: Step = {
  weight: 0.15,
  calls: ['made.voidAnalysis'],
  draw(shop, dice) {
    const made = someMade(shop, dice, ({ analyses }) => analyses.length > 0);
    const row = dice.mostly(made.analyses.filter(({ voided }) => !voided), made.analyses) ?? { id: 99999, voided: true };
    return act('made.voidAnalysis', { analysisId: row.id, reason: 'not calibrated' }, {
      refuse: row.voided ? ['made.weight-unknown'] : lost(made),
      done: () => void (row.voided = true),
    });
  },
}; // prettier-ignore

export const voidMade: Step = {
  weight: 0.2,
  calls: ['made.void'],
  draw(shop, dice) {
    const made = someMade(shop, dice, (one) => packedOf(shop, one) === null);
    return act('made.void', { id: made.id, reason: 'opened twice' }, {
      refuse: [...lost(made), ...because([isDone(shop, made), 'batch.done'], [!made.voided && packedOf(shop, made) !== null, 'made.packed'])],
      done: () => void (made.voided = true),
    });
  },
}; // prettier-ignore

const close = (what: string, found: number | null, known: number | null): void => {
  if ((found === null) !== (known === null) || Math.abs((found ?? 0) - (known ?? 0)) > HAIR)
    throw new Error(`${what}: ${found} g, the model ${known} g`);
};

export const lookAtMade: Step = {
  weight: 1,
  calls: ['made.list', 'made.get', 'made.label', 'made.forecast', 'made.losses'],
  draw(shop, dice) {
    const made = someMade(shop, dice, () => true);
    return dice.pick<() => Act>([
      () => act('made.list', {}, {
        done({ open }) {
          const names = standingMade(shop).filter((one) => !isDone(shop, one)).map(({ name }) => name);
          same('made batches at work', open.map(({ name }) => name).sort(), names.sort());
        },
      }),
      () => act('made.get', { id: made.id }, {
        refuse: lost(made),
        done(page) {
          close('block', page.blockGrams, made.start?.grams ?? null);
          close('added', page.addedGrams, addedOf(made));
          close('stuffed', page.stuffedGrams, stageOf(made, 'stuffed'));
          close('out of the oven', page.cookedGrams, stageOf(made, 'cooked'));
          close('packed', page.packedGrams, packedOf(shop, made));
          // Divided among the owners to the last gram.
          if (page.owners.some(({ meatGrams }) => meatGrams > 0)) {
            close('shared out', page.owners.reduce((sum, { packedGrams }) => sum + packedGrams, 0), packedOf(shop, made) ?? 0);
            same('packages shared out', page.owners.reduce((sum, { packages }) => sum + packages, 0), page.packages);
          }
        },
      }),
      () => act('made.label', { id: made.id }, {
        refuse: [...lost(made), ...because([!made.voided && made.start === null, 'made.not-started'])],
        done({ state }) {
          const ready = mayBeReady(shop, made);
          if (ready !== null) same('ready to eat', state === 'ready to eat', ready);
        },
      }),
      () => {
        const recipe = recipeOf(shop, made);
        return act('made.forecast', { recipeId: recipe.id, trimGrams: 10_000 }, { refuse: because([recipe === NO_RECIPE, 'recipe.unknown']) });
      },
      () => act('made.losses', {}, {
        done({ recipes }) { same('recipes', recipes.length, shop.book.smokehouse.recipes.filter(({ away }) => !away).length); },
      }),
    ])();
  },
}; // prettier-ignore
