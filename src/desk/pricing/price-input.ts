/** What a price line may be, and whether lines make sense beside each other. */
import * as v from 'valibot';
import { brought, listOf, needed } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import type { PriceLineRow } from '../contract/contract.ts';
import { PRODUCT_KINDS } from '../../trade/product.ts';

const BASES = [
  'animal',
  'hanging',
  'ground',
  'product',
  'fat',
  'package',
  'hour',
  'extra',
  'percent',
  'minimum',
  'deposit',
] as const;
/** More kinds of game than any shop takes. */
const MAX_SPECIES = 200;
/** More products than one price is for. */
const MAX_PRODUCTS = 200;
const PER_WEIGHT = ['hanging', 'ground', 'product', 'fat'];

/** Minor units, as a window read them. */
export const money = v.pipe(
  v.number('money.unreadable'),
  v.integer('money.unreadable'),
  v.minValue(-100_000_000, 'money.too-much'),
  v.maxValue(100_000_000, 'money.too-much'),
);
const rate = v.pipe(v.number('share.range'), v.minValue(-1, 'share.range'), v.maxValue(1, 'share.range'));

/** Charged once or per animal, an amount below zero is a discount in money; a price by weight has no such sense. */
const MAY_BE_DISCOUNT: readonly string[] = ['animal', 'extra'];

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

/** Where tax is rounded: on each line, or once on the whole bill. */
export const taxRule = v.optional(v.picklist(['per line', 'per bill'], 'choice.tax-rule'), 'per line');

/** One line as a window sends it. */
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
    fatSource: v.nullable(needed(40)),
    taxRate: v.pipe(v.number('share.range'), v.minValue(0, 'share.range'), v.maxValue(0.5, 'share.range')),
  }),
  v.check((one) => hasItsAmount(one), 'price.amount'),
  v.check((one) => (one.amountMinor ?? 0) >= 0 || MAY_BE_DISCOUNT.includes(one.basis), 'money.negative'),
  v.check((one) => one.basis !== 'deposit' || (one.rate ?? 0) >= 0, 'price.negative'),
  v.check((one) => !PER_WEIGHT.includes(one.basis) || one.unit !== null, 'price.unit'),
  v.check((one) => one.basis !== 'product' || one.products.length + one.kinds.length > 0, 'price.not-named'),
  v.check(
    (one) => one.basis === 'product' || one.products.length + one.kinds.length === 0,
    'price.not-by-product',
  ),
  v.check((one) => one.basis !== 'fat' || one.fatSource !== null, 'price.not-named'),
);

/** All lines of a price book. */
export const priceLineList = listOf(priceLine, 200);

/**
 * Refuses lines that contradict each other. Two smallest charges do not: the higher one counts. There is no largest
 * charge, so none can lie below the smallest.
 * @throws ProblemError `price.twice` (one code twice), `price.same-thing` (a product or a fat charged twice for one animal),
 *   `price.discount-over-all` (discounts that together are more than the whole)
 */
export function checkPrices(lines: readonly PriceLineRow[]): void {
  const codes = lines.map(({ code }) => code);
  const twice = codes.find((code, i) => codes.indexOf(code) !== i);
  if (twice !== undefined)
    throw new ProblemError('invalid', 'price.twice', { field: 'lines', with: { code: twice } });
  const reached = lines.map(reachOf);
  const things = lines.map(thingsOf);
  for (const [i, one] of lines.entries()) {
    const other = lines.find(
      (_, k) =>
        k < i &&
        overlap(things[k] as Things, things[i] as Things) &&
        meet(reached[k] as Reach, reached[i] as Reach),
    );
    if (other)
      throw new ProblemError('invalid', 'price.same-thing', {
        field: 'lines',
        with: { first: other.label, second: one.label },
      });
  }
  // Percentages are typed to a hundredth of a per cent; a sum of binary fractions is not that exact.
  if (Math.round(lowestDiscount(lines) * 10_000) < -10_000)
    throw new ProblemError('invalid', 'price.discount-over-all', { field: 'lines' });
}

type Things = ReadonlySet<string>;

/** The fat that a line is for, or its products and kinds. */
function thingsOf({ basis, fatSource, products, kinds }: PriceLineRow): Things {
  if (basis === 'fat') return new Set([`fat ${fatSource}`]);
  if (basis !== 'product') return new Set();
  return new Set([
    ...products.map((one) => `product ${one.trim().toLowerCase()}`),
    ...kinds.map((kind) => `kind ${kind}`),
  ]);
}

function overlap(a: Things, b: Things): boolean {
  return a.size > 0 && b.size > 0 && [...a].some((one) => b.has(one));
}

/** The kinds of animal that a line is for, ready to be looked up; null: every kind. */
interface Reach {
  species: ReadonlySet<string> | null;
  brought: ReadonlySet<string> | null;
}

function reachOf({ species, brought: ways }: PriceLineRow): Reach {
  return { species: species && new Set(species), brought: ways && new Set(ways) };
}

/** Whether one animal can fall under both. */
function meet(a: Reach, b: Reach): boolean {
  const both = (one: ReadonlySet<string> | null, other: ReadonlySet<string> | null): boolean =>
    one === null || other === null || [...one].some((code) => other.has(code));
  return both(a.species, b.species) && both(a.brought, b.brought);
}

/** The sum of all percentages for the kind of animal that gets the most off; 0 or above where none gets any. */
function lowestDiscount(lines: readonly PriceLineRow[]): number {
  const lowest = brought.options.map((way) => {
    const here = lines.filter(
      ({ basis, brought: ways }) => basis === 'percent' && (ways === null || ways.includes(way)),
    );
    let everywhere = 0;
    const more = new Map<string, number>();
    for (const { species, rate: share } of here) {
      if (species === null) everywhere += share ?? 0;
      else for (const code of new Set(species)) more.set(code, (more.get(code) ?? 0) + (share ?? 0));
    }
    return everywhere + [...more.values()].reduce((least, one) => Math.min(least, one), 0);
  });
  return Math.min(...lowest);
}
