/** A recipe as text fields, so that what cannot be read is not lost. */
import type { RecipeBody } from '../../../bridge/contract.ts';
import { massTyped } from '../../orders/instructions-form.ts';
import { readingIn } from '../../parts/index.ts';
import { percentText, readPercent } from '../../texts/percent.ts';
import { readingGrams } from '../../../core/values/reading.ts';
import { text } from '../../../words/compiled/window/smokehouse.ts';

/** One line of a list that grows; the fields by name, and a key that stays. */
export type Row = Record<string, string>;

type Flags = Pick<RecipeBody, 'bacon' | 'skinOn' | 'readyToEat' | 'cookedSoon' | 'lowHeat'>;
type Choices = Pick<RecipeBody, 'form' | 'method' | 'finish' | 'keep' | 'lossKind'>;

export interface RecipeForm extends Flags, Choices {
  name: string;
  product: string;
  reason: string;
  meat: Row[];
  additions: Row[];
  steps: Row[];
  /** '' for none, as in the three below. */
  class: NonNullable<RecipeBody['class']> | '';
  immersedBy: NonNullable<RecipeBody['immersedBy']> | '';
  standard: NonNullable<RecipeBody['standard']> | '';
  cooling: string;
  level: 'log65' | 'log7' | 'log5';
  pickUp: string;
  casing: string;
  diameter: string;
  filled: string;
  holds: string;
  package: string;
  note: string;
}

const MM_PER_INCH = 25.4;
const row = (fields: Row): Row => ({ ...fields, key: crypto.randomUUID() });

export const newMeat = (): Row => row({ kind: 'game', name: '', share: '', fat: '' });
export const newStep = (): Row => row({ what: '', oven: '', humidity: '', minutes: '', until: '' });
export const newAddition = (unit: 'lb' | 'kg'): Row =>
  row({
    ingredient: '', role: 'seasoning', typed: '', unit: unit === 'lb' ? 'oz' : 'g',
    per: unit === 'lb' ? '100 lb' : 'kg', into: 'meat',
  }); // prettier-ignore

/** A new recipe: game alone, raw. */
export function emptyRecipe(): RecipeForm {
  return {
    name: '', product: '', reason: '', meat: [{ ...newMeat(), share: '100' }], additions: [], steps: [],
    form: 'ground', bacon: false, method: 'none', class: '', pickUp: '', immersedBy: '', skinOn: false,
    finish: 'raw', readyToEat: false, keep: 'frozen', cookedSoon: true, lowHeat: false, lossKind: 'fresh', standard: '',
    cooling: '', level: 'log65', casing: '', diameter: '', filled: '', holds: '', package: '', note: '',
  }; // prettier-ignore
}

const shown = (value: number | null | undefined): string => (value == null ? '' : String(value));
const percent = (share: number | null): string => (share === null ? '' : percentText(share));

/** A stored recipe as editable text. */
export function typeRecipe(
  { name, product, body }: { name: string; product: string; body: RecipeBody },
  unit: 'lb' | 'kg',
): RecipeForm {
  const { meat, additions, heat, casing, packageGrams, pickUp, immersedBy, standard, ...rest } = body;
  return {
    ...rest,
    name,
    product,
    reason: '',
    meat: meat.map((one) => ({ ...newMeat(), ...one, share: percent(one.share), fat: percent(one.fat) })),
    additions: additions.map(({ ingredientId, ...one }) => ({
      ...newAddition(unit),
      ...one,
      ingredient: String(ingredientId),
    })),
    steps: (heat?.steps ?? []).map((one) => ({
      ...newStep(),
      what: one.what,
      oven: shown(one.ovenF),
      humidity: percent(one.humidity),
      minutes: shown(one.minutes),
      until: shown(one.untilF),
    })),
    class: body.class ?? '',
    immersedBy: immersedBy ?? '',
    standard: standard ?? '',
    cooling: heat?.cooling ?? '',
    level: heat?.level ?? 'log65',
    pickUp: percent(pickUp),
    casing: casing?.name ?? '',
    diameter: shown(casing?.diameterMm),
    filled: shown(casing?.filledMm),
    holds: casing?.holdsTyped ?? '',
    package: packageGrams === null ? '' : massTyped(packageGrams, unit),
  };
}

/**
 * A length in millimeters, inches where it says so; null if it is none.
 * @example readLength('2.5 in') // 63.5
 */
export function readLength(typed: string): number | null {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(mm|in|")?\s*$/i.exec(typed);
  if (!found) return null;
  const value = Number(found[1]?.replace(',', '.'));
  return found[2] && found[2] !== 'mm' ? Math.round(value * MM_PER_INCH * 10) / 10 : value;
}

function readNumber(typed: string): number | null {
  return /^\s*-?\d+(?:[.,]\d+)?\s*$/.test(typed) ? Number(typed.replace(',', '.')) : null;
}

/** The recipe, or null while a field cannot be read; `wrong` holds a sentence by field: `fat`, `meat.KEY.share`. */
export function readRecipe(
  form: RecipeForm,
  unit: 'lb' | 'kg',
): { body: RecipeBody | null; wrong: Record<string, string> } {
  const wrong: Record<string, string> = {};
  /** Null where nothing was typed. */
  function read<T>(field: string, typed: string, as: (typed: string) => T | null, problem: string): T | null {
    if (typed.trim() === '') return null;
    const value = as(typed);
    if (value === null) wrong[field] = problem;
    return value;
  }
  function must<T>(field: string, value: T | null, problem: string, instead: T): T {
    if (value === null) wrong[field] ??= problem;
    return value ?? instead;
  }
  const grams = (typed: string): number | null => {
    const reading = readingIn(typed, unit);
    return reading && readingGrams(reading);
  };
  const share = (field: string, typed = ''): number | null =>
    read(field, typed, readPercent, text.shareProblem);
  const number = (field: string, typed = ''): number | null =>
    read(field, typed, readNumber, text.numberProblem);
  const length = (field: string, typed: string): number | null =>
    read(field, typed, readLength, text.lengthProblem);

  const { meat, additions, steps, pickUp, holds, note, immersedBy, standard, level, cooling } = form;
  const {
    form: shape,
    method,
    finish,
    keep,
    lossKind,
    bacon,
    skinOn,
    readyToEat,
    cookedSoon,
    lowHeat,
  } = form;
  const body: RecipeBody = {
    form: shape, method, finish, keep, lossKind, bacon, skinOn, readyToEat, cookedSoon, lowHeat, note,
    meat: meat.map(({ key, kind, name, share: part, fat }) => ({
      kind: kind as RecipeBody['meat'][number]['kind'],
      name: name?.trim() || text.meatKinds[kind as keyof typeof text.meatKinds],
      share: must(`meat.${key}.share`, share(`meat.${key}.share`, part), text.shareProblem, 0),
      fat: share(`meat.${key}.fat`, fat),
    })),
    additions: additions.map(({ key, ingredient, typed, role, unit: per, per: base, into }) => {
      if (!ingredient) wrong[`additions.${key}.ingredient`] = text.pick;
      if (!typed?.trim()) wrong[`additions.${key}.typed`] = text.numberProblem;
      return {
        ingredientId: Number(ingredient), role, typed: typed?.trim(), unit: per, per: base, into,
      } as RecipeBody['additions'][number];
    }),
    class: method === 'none' ? null : form.class || null,
    pickUp: share('pickUp', pickUp),
    immersedBy: method === 'immersed' ? immersedBy || null : null,
    standard: standard || null,
    heat: finish === 'raw' ? null : {
      level,
      cooling: cooling || null,
      steps: steps.map(({ key, what, oven, humidity, minutes, until }) => ({
        what: must(`steps.${key}.what`, what?.trim() || null, text.nameNeeded, ''),
        ovenF: number(`steps.${key}.oven`, oven),
        humidity: share(`steps.${key}.humidity`, humidity),
        minutes: number(`steps.${key}.minutes`, minutes),
        untilF: number(`steps.${key}.until`, until),
      })),
    },
    casing: form.casing.trim() === '' ? null : {
      name: form.casing.trim(),
      diameterMm: must('diameter', length('diameter', form.diameter), text.lengthProblem, 0),
      filledMm: length('filled', form.filled),
      holdsTyped: holds.trim(),
    },
    packageGrams: read('package', form.package, grams, text.weightProblem),
  }; // prettier-ignore
  return { body: Object.keys(wrong).length > 0 ? null : body, wrong };
}
