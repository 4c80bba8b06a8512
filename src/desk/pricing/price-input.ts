/** Input of price lines, and checks that they are consistent. */
import * as v from 'valibot';
import { isByProduct } from '../../core/pricing/by-product.ts';
import { brought, id, listOf, needed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { PriceLineRow } from '../contract/contract.ts';
import { PRODUCT_KINDS } from '../../trade/product.ts';

const BASES = [
  'animal',
  'hanging',
  'ground',
  'product',
  'trim',
  'fat',
  'package',
  'hour',
  'extra',
  'percent',
  'minimum',
  'deposit',
] as const;
/** More species than any shop takes. */
const MAX_SPECIES = 200;
/** More products than one line is for. */
const MAX_PRODUCTS = 200;
const PER_WEIGHT = ['hanging', 'ground', 'product', 'trim', 'fat'];
/** Recipes of one line. */
const MAX_RECIPES = 200;
/** Units of a line's own minimum; more than any animal weighs. */
const MOST_LEAST = 10_000;

/** Minor units, parsed by the window. */
export const money = v.pipe(
  v.number('money.unreadable'),
  v.integer('money.unreadable'),
  v.minValue(-100_000_000, 'money.too-much'),
  v.maxValue(100_000_000, 'money.too-much'),
);
const rate = v.pipe(v.number('share.range'), v.minValue(-1, 'share.range'), v.maxValue(1, 'share.range'));

/** Bases on which a negative amount is a discount; a negative price by weight is invalid. */
const MAY_BE_DISCOUNT: readonly string[] = ['animal', 'extra'];

const least = v.pipe(
  v.number('price.least'),
  v.minValue(0.01, 'price.least'),
  v.maxValue(MOST_LEAST, 'price.least'),
  v.check((units) => Number(units.toFixed(2)) === units, 'price.least'),
);

/** How many products, kinds and recipes it names. */
const namedIn = ({
  products,
  kinds,
  recipes,
}: Pick<PriceLineRow, 'products' | 'kinds' | 'recipes'>): number =>
  products.length + kinds.length + recipes.length;

/** A percentage has a rate, a deposit an amount or a rate, everything else an amount. */
function hasItsAmount({
  basis,
  amountMinor,
  rate: share,
}: Pick<PriceLineRow, 'basis' | 'amountMinor' | 'rate'>): boolean {
  if (basis === 'deposit') return (amountMinor === null) !== (share === null);
  return basis === 'percent'
    ? amountMinor === null && share !== null
    : amountMinor !== null && share === null;
}

/** Tax is rounded on each line, or once on the whole bill. */
export const taxRule = v.optional(v.picklist(['per line', 'per bill'], 'choice.tax-rule'), 'per line');

/** Input for one line. */
const priceLine = v.pipe(
  v.object({
    code: needed(40),
    label: needed(120),
    basis: v.picklist(BASES, 'choice.basis'),
    amountMinor: v.nullable(money),
    rate: v.nullable(rate),
    unit: v.nullable(v.picklist(['lb', 'kg'], 'choice.unit')),
    species: v.nullable(listOf(needed(40), MAX_SPECIES)),
    brought: v.nullable(listOf(brought, brought.options.length)),
    products: v.optional(listOf(needed(60), MAX_PRODUCTS), []),
    kinds: v.optional(listOf(v.picklist(PRODUCT_KINDS, 'choice.product'), PRODUCT_KINDS.length), []),
    recipes: v.optional(listOf(id, MAX_RECIPES), []),
    least: v.optional(v.nullable(least), null),
    fatSource: v.nullable(needed(40)),
    taxRate: v.pipe(v.number('share.range'), v.minValue(0, 'share.range'), v.maxValue(0.5, 'share.range')),
  }),
  v.check((one) => hasItsAmount(one), 'price.amount'),
  v.check((one) => (one.amountMinor ?? 0) >= 0 || MAY_BE_DISCOUNT.includes(one.basis), 'money.negative'),
  v.check((one) => one.basis !== 'deposit' || (one.rate ?? 0) >= 0, 'price.negative'),
  v.check((one) => !PER_WEIGHT.includes(one.basis) || one.unit !== null, 'price.unit'),
  v.check((one) => !isByProduct(one.basis) || namedIn(one) > 0, 'price.not-named'),
  v.check((one) => isByProduct(one.basis) || namedIn(one) === 0, 'price.not-by-product'),
  v.check((one) => one.least === null || PER_WEIGHT.includes(one.basis), 'price.least'),
  v.check((one) => one.basis !== 'fat' || one.fatSource !== null, 'price.not-named'),
);

/** All lines of a price book. */
export const priceLineList = listOf(priceLine, 200);

/**
 * Refuses contradictory lines. Two minimum charges are allowed: the higher one counts. There is no maximum charge.
 * @throws ProblemError `price.twice` (duplicate code), `price.same-thing` (a product or fat charged twice for one
 * animal), `price.discount-over-all` (discounts that total more than 100 %)
 */
export function checkPrices(lines: readonly PriceLineRow[]): void {
  const codes = lines.map(({ code }) => code);
  const twice = codes.find((code, i) => codes.indexOf(code) !== i);
  if (twice !== undefined)
    throw new ProblemError('invalid', 'price.twice', { field: 'lines', with: { code: twice } });
  const reached = lines.map(reachOf);
  const subjects = lines.map(subjectsOf);
  for (const [i, one] of lines.entries()) {
    const other = lines.find(
      (_, k) =>
        k < i &&
        overlap(subjects[k] as Subjects, subjects[i] as Subjects) &&
        canBothApply(reached[k] as Reach, reached[i] as Reach),
    );
    if (other)
      throw new ProblemError('invalid', 'price.same-thing', {
        field: 'lines',
        with: { first: other.label, second: one.label },
      });
  }
  // Percentages have two decimals; rounding removes the error of binary fractions.
  if (Math.round(lowestDiscount(lines) * 10_000) < -10_000)
    throw new ProblemError('invalid', 'price.discount-over-all', { field: 'lines' });
}

type Subjects = ReadonlySet<string>;

/** The fat of a line, or its products, kinds and recipes. */
function subjectsOf({ basis, fatSource, products, kinds, recipes }: PriceLineRow): Subjects {
  if (basis === 'fat') return new Set([`fat ${fatSource}`]);
  if (!isByProduct(basis)) return new Set();
  return new Set([
    ...products.map((one) => `product ${one.trim().toLowerCase()}`),
    ...kinds.map((kind) => `kind ${kind}`),
    ...recipes.map((recipe) => `recipe ${recipe}`),
  ]);
}

function overlap(a: Subjects, b: Subjects): boolean {
  return a.size > 0 && b.size > 0 && [...a].some((one) => b.has(one));
}

/** The species of a line, for lookup; null for all. */
interface Reach {
  species: ReadonlySet<string> | null;
  brought: ReadonlySet<string> | null;
}

function reachOf({ species, brought: ways }: PriceLineRow): Reach {
  return { species: species && new Set(species), brought: ways && new Set(ways) };
}

/** Whether one animal can match both. */
function canBothApply(a: Reach, b: Reach): boolean {
  const both = (one: ReadonlySet<string> | null, other: ReadonlySet<string> | null): boolean =>
    one === null || other === null || [...one].some((code) => other.has(code));
  return both(a.species, b.species) && both(a.brought, b.brought);
}

/** The most negative sum of percentages for any species; 0 or above if there is no discount. */
function lowestDiscount(lines: readonly PriceLineRow[]): number {
  const lowest = brought.options.map((way) => {
    const here = lines.filter(
      ({ basis, brought: ways }) => basis === 'percent' && (ways === null || ways.includes(way)),
    );
    let forAll = 0;
    const more = new Map<string, number>();
    for (const { species, rate: share } of here) {
      if (species === null) forAll += share ?? 0;
      else for (const code of new Set(species)) more.set(code, (more.get(code) ?? 0) + (share ?? 0));
    }
    return forAll + [...more.values()].reduce((least, one) => Math.min(least, one), 0);
  });
  return Math.min(...lowest);
}
