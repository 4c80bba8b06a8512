/** Input schemas of recipes and ingredients. */
import * as v from 'valibot';
import { ALLERGENS } from '../../core/curing/ingredients.ts';
import { CURE_CLASSES } from '../../core/curing/limits.ts';
import { MAX_ADDITIONS } from '../../core/curing/recipe.ts';
import { MASS_UNITS } from '../../trade/weighing.ts';
import { id, line, listOf, needed, packageGrams, share, text } from '../input/input.ts';

/** More than the packet of any blend names. */
const MAX_PARTS = 60;
const MAX_MEAT = 20;
const MAX_STEPS = 30;

const choice = <const T extends readonly string[]>(options: T) => v.picklist(options, 'choice.smokehouse');
const flag = v.boolean('choice.smokehouse');
const strength = v.nullable(
  v.pipe(v.number('strength.range'), v.minValue(0, 'strength.range'), v.maxValue(100, 'strength.range')),
);
const millimeters = v.pipe(
  v.number('casing.size'),
  v.minValue(1, 'casing.size'),
  v.maxValue(20_000, 'casing.size'),
);
/** No smokehouse is hotter; °F. */
export const degreesF = v.pipe(
  v.number('heat.degrees'),
  v.minValue(-40, 'heat.degrees'),
  v.maxValue(600, 'heat.degrees'),
);
/** A week. */
export const minutes = v.pipe(
  v.number('minutes.range'),
  v.minValue(0, 'minutes.range'),
  v.maxValue(10_080, 'minutes.range'),
);

export const ingredientInput = v.object({
  name: needed(60),
  kind: choice(['plain', 'blend', 'cure', 'accelerator']),
  parts: v.nullable(listOf(id, MAX_PARTS)),
  allergens: v.union(
    [
      choice(['by-parts', 'unknown']),
      listOf(v.object({ allergen: choice(ALLERGENS), kind: text(60) }), MAX_PARTS),
    ],
    'choice.smokehouse',
  ),
  cure: v.nullable(
    v.object({
      nitrite: strength,
      nitrate: strength,
      accelerator: strength,
      salt: v.nullable(share),
      nitriteAs: choice(['sodium', 'potassium']),
      typed: line(60),
      uses: v.nullable(listOf(choice(CURE_CLASSES), CURE_CLASSES.length)),
    }),
  ),
  note: text(500),
});

const heat = v.object({
  level: choice(['log65', 'log7', 'log5']),
  cooling: v.nullable(needed(40)),
  steps: listOf(
    v.object({
      what: needed(60),
      ovenF: v.nullable(degreesF),
      humidity: v.nullable(share),
      minutes: v.nullable(minutes),
      untilF: v.nullable(degreesF),
    }),
    MAX_STEPS,
  ),
});

export const recipeBody = v.object({
  meat: listOf(
    v.object({
      kind: choice(['game', 'pork', 'beef', 'own-fat', 'other']),
      name: needed(60),
      share,
      fat: v.nullable(share),
    }),
    MAX_MEAT,
  ),
  additions: listOf(
    v.object({
      ingredientId: id,
      role: choice(['cure', 'accelerator', 'salt', 'seasoning', 'binder', 'water', 'other']),
      typed: needed(60),
      unit: v.picklist(MASS_UNITS, 'choice.smokehouse'),
      per: choice(['100 lb', 'kg']),
      into: choice(['meat', 'pickle']),
    }),
    MAX_ADDITIONS,
  ),
  form: choice(['ground', 'whole']),
  bacon: flag,
  method: choice(['none', 'mixed-in', 'pumped', 'immersed', 'rubbed']),
  class: v.nullable(choice(CURE_CLASSES)),
  pickUp: v.nullable(share),
  immersedBy: v.nullable(choice(['pick-up', 'equilibrium'])),
  skinOn: flag,
  finish: choice(['raw', 'cooked', 'dried']),
  readyToEat: flag,
  keep: choice(['refrigerated', 'frozen', 'shelf-stable']),
  cookedSoon: flag,
  lowHeat: flag,
  lossKind: needed(40),
  standard: v.nullable(choice(['fresh-sausage', 'cooked-sausage', 'cooked-ham', 'cooked-shoulder'])),
  heat: v.nullable(heat),
  casing: v.nullable(
    v.object({
      name: needed(60),
      diameterMm: millimeters,
      filledMm: v.nullable(millimeters),
      holdsTyped: text(60),
    }),
  ),
  packageGrams: v.nullable(packageGrams),
  note: text(2000),
});
