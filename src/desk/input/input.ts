/** Building blocks of input schemas. A message is a problem code, which the window words. */
import * as v from 'valibot';
import { isDate, isTradeDay } from '../../core/values/dates.ts';
import { AGES, BROUGHT, LEGS, SEXES } from '../../trade/animal.ts';

/**
 * Control characters other than line breaks and tabs do not belong in a name and break exports. A lone surrogate (a
 * truncated emoji) would be stored as another character.
 */
export const hasControl = (text: string): boolean => /[^\P{Cc}\n\r\t]|\p{Cs}/u.test(text);

const clean = (most: number) =>
  v.pipe(
    v.string('text.needed'),
    v.trim(),
    v.maxLength(most, 'text.too-long'),
    v.check((text) => !hasControl(text), 'text.control'),
  );

/** Text that may be empty, but not absent. */
export const line = (most = 200) => clean(most);
/** Optional text; empty by default. */
export const text = (most = 200) => v.optional(clean(most), '');
/** Text that must not be empty. */
export const needed = (most = 200) => v.pipe(clean(most), v.minLength(1, 'text.needed'));
export const id = v.pipe(
  v.number('id.needed'),
  v.integer('id.needed'),
  v.minValue(1, 'id.needed'),
  v.maxValue(Number.MAX_SAFE_INTEGER, 'id.needed'),
);
/** A list with a maximum length; every list in an input has one. */
export const listOf = <S extends v.GenericSchema>(item: S, most: number) =>
  v.pipe(v.array(item), v.maxLength(most, 'list.too-long'));
/** Ten tonnes in grams: heavier than anything weighed in a shop, and the limit of a reading. */
const MAX_GRAMS = 1e7;
/** A planned weight. */
export const someGrams = v.pipe(
  v.number('reading.empty'),
  v.minValue(1, 'reading.zero'),
  v.maxValue(MAX_GRAMS, 'reading.too-heavy'),
);
/**
 * A date of the shop's work. Every call with a date uses this schema: `test/desk/input/dates.test.ts` tries each of
 * them.
 */
export const date = v.pipe(
  v.string('date.unreadable'),
  v.maxLength(10, 'date.unreadable'),
  v.check(isDate, 'date.unreadable'),
  v.check(isTradeDay, 'date.year'),
);
export const optionalDate = v.optional(v.nullable(date), null);
export const share = v.pipe(
  v.number('share.range'),
  v.minValue(0, 'share.range'),
  v.maxValue(1, 'share.range'),
);
/** Initials of the person who acts. */
export const by = v.optional(clean(6), '');
/** A weight as typed; the desk parses it. */
export const typed = v.pipe(v.string('reading.empty'), v.maxLength(60, 'reading.unreadable'));
export const confirmed = v.optional(v.boolean(), false);
/** Codes of the questions that can be confirmed. */
export const QUESTIONS = [
  'date.long-ago', 'date.far-ahead', 'date.killed-long-before', 'prices.never-apply', 'edit.other-season',
  'result.other-sample', 'weight.unlikely', 'weight.over', 'weight.same-again', 'weight.hung-again',
  'release.belongings',
] as const; // prettier-ignore
export type Question = (typeof QUESTIONS)[number];
/** The confirmed questions, by code; `true` confirms every one. */
export const confirmedOf = v.optional(
  v.union([v.boolean(), listOf(v.picklist(QUESTIONS), QUESTIONS.length)], 'input.invalid'),
  false,
);

export const sex = v.picklist(SEXES, 'choice.sex');
export const age = v.picklist(AGES, 'choice.age');
export const legs = v.picklist(LEGS, 'choice.legs');
export const brought = v.picklist(BROUGHT, 'choice.brought');
/** More than any animal is cut into. */
export const MAX_PRIMALS = 100;
/** Pieces of an animal that was not received whole, each once; none: all of it, or unknown. */
export const pieces = v.pipe(
  listOf(
    v.object({
      primal: needed(40),
      count: v.pipe(
        v.number('count.range'),
        v.integer('count.range'),
        v.minValue(1, 'count.range'),
        v.maxValue(8, 'count.range'),
      ),
    }),
    MAX_PRIMALS,
  ),
  v.check((came) => new Set(came.map(({ primal }) => primal)).size === came.length, 'pieces.twice'),
);
export const parts = v.optional(pieces, []);
export const targetFat = v.nullable(
  v.pipe(v.number('fat.range'), v.minValue(0.005, 'fat.range'), v.maxValue(0.6, 'fat.range')),
);

/** The heaviest package for a home freezer; more is a typing error. */
const MAX_PACKAGE_GRAMS = 25_000;
/** Half a kilogram: a heavier patty is a package. */
const MAX_PATTY_GRAMS = 500;

export const packageGrams = v.pipe(
  v.number('package.size'),
  v.minValue(50, 'package.size'),
  v.maxValue(MAX_PACKAGE_GRAMS, 'package.size'),
);
export const pattyGrams = v.nullable(
  v.pipe(v.number('patty.size'), v.minValue(20, 'patty.size'), v.maxValue(MAX_PATTY_GRAMS, 'patty.size')),
);

/** Of one animal; more of an extra than this was mistyped. */
const MAX_EXTRAS = 30;
const MAX_OF_EXTRA = 99;
/** How many of each extra of the price book, by code; one of which there are none is left out. */
export const pricedExtras = v.pipe(
  v.record(
    needed(40),
    v.pipe(
      v.number('count.extras'),
      v.integer('count.extras'),
      v.minValue(1, 'count.extras'),
      v.maxValue(MAX_OF_EXTRA, 'count.extras'),
    ),
  ),
  v.maxEntries(MAX_EXTRAS, 'list.too-long'),
);

const recipeId = v.optional(v.nullable(id));

export const instructions = v.object({
  /** The hunter chose the shop's usual way: an order, too. */
  standard: v.optional(v.boolean()),
  cutsShare: share,
  primals: v.optional(
    v.pipe(
      listOf(
        v.object({
          primal: needed(40),
          as: v.picklist(['steaks', 'roasts', 'stew', 'strips', 'whole', 'grind'], 'choice.use'),
          size: text(30),
        }),
        20,
      ),
      v.check((orders) => new Set(orders.map(({ primal }) => primal)).size === orders.length, 'primal.twice'),
    ),
    [],
  ),
  fat: needed(40),
  targetFat,
  grindProduct: needed(60),
  recipeId,
  pattyGrams: v.optional(pattyGrams, null),
  alsoGround: v.optional(
    listOf(
      v.object({
        product: needed(60),
        grams: someGrams,
        fat: needed(40),
        targetFat,
        pattyGrams: v.optional(pattyGrams, null),
        recipeId,
      }),
      10,
    ),
    [],
  ),
  packageGrams,
  pricedExtras: v.optional(pricedExtras, {}),
  extras: listOf(needed(40), MAX_EXTRAS),
  note: text(2000),
});
