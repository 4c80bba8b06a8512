/** Scales a recipe to weighed meat, and holds its cures and its composition against the figures. */
import { checkCure, type CureAnswer } from '../../core/curing/check.ts';
import type { Finding } from '../../core/curing/finding.ts';
import { baseGrams, type Application } from '../../core/curing/ingoing.ts';
import type { Library } from '../../core/curing/ingredients.ts';
import type { CureClass } from '../../core/curing/limits.ts';
import { saltGramsIn, strengthFindings, type CureMix } from '../../core/curing/mix.ts';
import { scaleRecipe, type ScaledBatch, type Scales } from '../../core/curing/scaling.ts';
import { standardFindings } from '../../core/curing/standards.ts';
import type { Ppm, RecipeBody, SmokeFinding } from '../contract/contract.ts';
import { COMPOSITION_RULES, CURE_LIMITS } from '../supplied/smokehouse.ts';
import { sourceNote } from '../supplied/sources.ts';
import { curingRecipe, type RunningMeat } from './curing-recipe.ts';
import type { Pantry } from './library.ts';

/** Part of the meat block with its weight; parts that the recipe does not have are among them, with no share. */
export interface WeighedMeat extends RunningMeat {
  readonly grams: number;
}

export interface Reckoned {
  readonly scaled: ScaledBatch;
  readonly ppm: Ppm | null;
  readonly findings: SmokeFinding[];
  readonly mayStart: boolean;
  /** Added to the meat block as it goes into the casing, grams: of a pickle what is taken up. */
  readonly takenGrams: number;
  /** The part of the pickle that ends up in the meat; 1 without a pickle. */
  readonly pickleShare: number;
  readonly saltGrams: number;
  readonly waterGrams: number;
}

/** Amounts that were really weighed, by ingredient; without them those of the recipe. */
export type Amounts = ReadonlyMap<string, number>;

/**
 * @param amounts grams by ingredient in place of the recipe's
 * @throws ValidationError those of `scaleRecipe` and `checkCure`
 */
export function reckon(
  body: RecipeBody,
  meat: readonly WeighedMeat[],
  { library, mixes }: Pantry,
  scales: Scales,
  amounts?: Amounts,
): Reckoned {
  const recipe = curingRecipe(body, meat);
  const weighed = Object.fromEntries(meat.map(({ id, grams }) => [id, grams]));
  const scaled = scaleRecipe(recipe, library, weighed, scales);
  const added = scaled.additions.map(({ ingredient, role, grams }, i) => ({
    ingredient,
    role,
    into: body.additions[i]?.into ?? 'meat',
    grams: amounts ? (amounts.get(ingredient) ?? 0) : grams,
  }));
  const sum = (of: typeof added): number => of.reduce((total, { grams }) => total + grams, 0);
  const pickle = added.filter(({ into }) => into === 'pickle');
  const application = applicationOf(body, scaled.greenGrams, sum(pickle));
  const taken = application ? takenShare(application, scaled.greenGrams) : 0;
  const inMeat = ({ into, grams }: (typeof added)[number]): number => grams * (into === 'pickle' ? taken : 1);
  const salt = (one: (typeof added)[number]): number => {
    const mix = mixes.get(one.ingredient);
    if (mix && strengthFindings(mix).length === 0) return saltGramsIn(mix, inMeat(one));
    return one.role === 'salt' ? inMeat(one) : 0;
  };
  const role = (wanted: string): number =>
    added.filter((one) => one.role === wanted).reduce((total, one) => total + inMeat(one), 0);
  const takenGrams = added.reduce((total, one) => total + inMeat(one), 0);
  const cures = added.flatMap(({ ingredient, grams }) => {
    const mix = mixes.get(ingredient);
    return mix ? [{ mix, grams }] : [];
  });
  const cure = cureOf(body, application, cures, scales.smallStep);
  const rawGrams = scaled.greenGrams + takenGrams;
  const fat = fatOf(meat);
  const composition = body.standard
    ? standardFindings(
        body.standard,
        {
          ...(fat === null ? {} : { fat: (fat * scaled.greenGrams) / rawGrams }),
          water: role('water') / rawGrams,
          binder: role('binder') / rawGrams,
        },
        COMPOSITION_RULES,
      )
    : [];
  return {
    scaled,
    ppm: cure.ppm,
    findings: [...cure.findings, ...composition].map((found) => foundWith(found, library)),
    mayStart: cure.mayStart,
    takenGrams,
    pickleShare: taken,
    saltGrams: added.reduce((total, one) => total + salt(one), 0),
    waterGrams: role('water'),
  };
}

/** Fat of the meat block where it is known of every part. */
export function fatOf(meat: readonly { grams: number; fat: number | null }[]): number | null {
  if (meat.some(({ grams, fat }) => grams > 0 && fat === null)) return null;
  const total = meat.reduce((sum, { grams }) => sum + grams, 0);
  return total === 0 ? null : meat.reduce((sum, { grams, fat }) => sum + grams * (fat ?? 0), 0) / total;
}

/** Null where the share that the meat takes up is not known. */
function applicationOf(
  { method, form, pickUp, immersedBy, skinOn }: RecipeBody,
  greenGrams: number,
  pickleGrams: number,
): Application | null {
  switch (method) {
    case 'mixed-in':
      return { method, greenGrams };
    case 'none':
      return form === 'ground' ? { method: 'mixed-in', greenGrams } : { method: 'rubbed', greenGrams };
    case 'rubbed':
      return { method, greenGrams, skinOn };
    case 'pumped':
      return pickUp === null ? null : { method, pickleGrams, pickUp };
    case 'immersed':
      if (immersedBy === 'equilibrium') return { method, by: 'equilibrium', pickleGrams, greenGrams };
      return pickUp === null ? null : { method, by: 'pick-up', pickleGrams, pickUp };
  }
}

/** The part of a pickle that ends up in the meat. */
function takenShare(application: Application, greenGrams: number): number {
  if (!('pickleGrams' in application)) return 1;
  return Math.min(1, greenGrams / baseGrams(application));
}

function cureOf(
  body: RecipeBody,
  application: Application | null,
  cures: readonly { mix: CureMix; grams: number }[],
  stepGrams: number,
): CureAnswer {
  if (!application)
    return {
      ppm: null,
      findings: [{ code: 'cure.pick-up-missing', weight: 'stop', with: { method: body.method } }],
      mayStart: false,
    };
  // Where the recipe states no class there is no cure.
  const ofForm: CureClass = body.form === 'ground' ? 'ground' : body.bacon ? 'bacon-dry' : 'dry-rubbed';
  return checkCure(
    {
      class: body.class ?? ofForm,
      product: {
        ground: body.form === 'ground',
        bacon: body.bacon,
        cookedSoon: body.cookedSoon,
        lowHeat: body.lowHeat,
        keep: body.keep,
      },
      application,
      cures,
      stepGrams,
    },
    CURE_LIMITS,
  );
}

/** With the limit behind it in its own words, a cure by its name. */
function foundWith({ code, weight, with: told, rule }: Finding, library: Library): SmokeFinding {
  const { cure } = told;
  const behind = [...CURE_LIMITS, ...COMPOSITION_RULES].find((one) => one.code === rule);
  return {
    code,
    weight,
    with: cure === undefined ? { ...told } : { ...told, cure: library[cure]?.name ?? cure },
    rule: behind ? { asWritten: behind.asWritten, source: sourceNote(behind) } : null,
  };
}
