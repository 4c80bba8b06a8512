/** A season's valid bills with their frozen amounts, for repricing. */
import type { Amounts, PriceLine } from '../../core/pricing/price.ts';
import { lacksPrice, linesFor, madeOf } from '../../core/pricing/cover.ts';
import { MINUTES } from '../../core/values/money-sums.ts';
import { kindOf, listedProducts, productLookup, productsOfRecipes } from '../pricing/product-lookup.ts';
import { productsOnShelf } from '../pricing/products-shelf.ts';
import type { Session } from '../session/session.ts';
import type { Range } from '../contract/contract.ts';

export interface BilledAnimal {
  animalId: number;
  number: number;
  ticket: string;
  species: string;
  amounts: Amounts;
  subtotalMinor: number;
  totalMinor: number;
  priceBookId: number;
  /** The animal's take-home, without added fat; null while unknown. */
  takeHomeGrams: number | null;
  /** The quoted price, in the shop's currency, and take-home; null without such a quote. */
  quote: { name: string; minor: Range; grams: Range } | null;
}

/** Valid bills in the shop's currency for animals of the season, by number. */
export function billedAnimals(session: Session, season: number): BilledAnimal[] {
  const { currency } = session.settings;
  return session.book.seasonMoney
    .bills(season)
    .filter((bill) => bill.currency === currency)
    .map((bill) => ({
      animalId: bill.animal_id,
      number: bill.number,
      ticket: bill.ticket,
      species: bill.species,
      amounts: bill.amounts as Amounts,
      subtotalMinor: bill.subtotal_minor,
      totalMinor: bill.total_minor,
      priceBookId: bill.price_book_id,
      takeHomeGrams: bill.take_home,
      quote:
        bill.quote !== null && bill.quoted_currency === currency
          ? {
              name: bill.quote,
              minor: { low: bill.price_low, mean: bill.price_mean, high: bill.price_high },
              grams: { low: bill.grams_low, mean: bill.grams_mean, high: bill.grams_high },
            }
          : null,
    }))
    .sort((a, b) => a.number - b.number);
}

/**
 * Frozen amounts as these lines see them, on a bill made now: products by their codes, plain grind without a price of its own
 * among what is ground. Bills from before told the products apart only that had a price, counted work in hours, once in one
 * sum, and extras once each.
 */
export function amountsFor(session: Session, lines: readonly PriceLine[]): (amounts: Amounts) => Amounts {
  const lookup = productLookup(session);
  const hourly = lines.filter(({ basis }) => basis === 'hour').map(({ code }) => code);
  const isCharged = chargedTest(lines);
  return (frozen) => {
    const { hours, extras, ...kept } = frozen as FrozenAmounts;
    const { products, kinds, made: how } = listedProducts(frozen, lookup);
    const made = Object.entries(products ?? {});
    // Whole cuts in their packages are part of the cutting, unless a line names them.
    const isWork = (product: string): boolean =>
      hasLine(product) || lacksPrice([], { product, kind: kinds?.[product] });
    const hasLine = (product: string): boolean =>
      madeOf({ products, made: how }, product).some(({ recipe }) =>
        isCharged({ product, kind: kinds?.[product], recipe }),
      );
    const ground = made.filter(([product]) => kinds?.[product] === 'grind' && !hasLine(product));
    return {
      ...kept,
      groundGrams: ground.reduce((total, [, grams]) => total + grams, frozen.groundGrams),
      products: Object.fromEntries(made.filter((one) => !ground.includes(one) && isWork(one[0]))),
      kinds: kinds ?? {},
      ...(how && { made: how }),
      minutes: kept.minutes ?? minutesOf(hourly, hours),
      extras: Array.isArray(extras) ? Object.fromEntries(extras.map((code) => [code, 1])) : (extras ?? {}),
    };
  };
}

/** Whether a line charges a product, known after the first bill with it. */
function chargedTest(lines: readonly PriceLine[]): (sought: Parameters<typeof linesFor>[1]) => boolean {
  const known = new Map<string, boolean>();
  return (sought) => {
    const key = `${sought.kind} ${sought.recipe} ${sought.product}`;
    let isCharged = known.get(key);
    if (isCharged === undefined) known.set(key, (isCharged = linesFor(lines, sought).length > 0));
    return isCharged;
  };
}

/** Hours as they were frozen, to four decimals: 0.8333 are 50 minutes. */
function minutesOf(hourly: readonly string[], hours: FrozenAmounts['hours'] = {}): Record<string, number> {
  const byLine =
    typeof hours === 'number' ? hourly.map((code): [string, number] => [code, hours]) : Object.entries(hours);
  return Object.fromEntries(byLine.map(([code, time]) => [code, Math.round(time * MINUTES)]));
}

/** As bills froze them before extras had a quantity and work was counted in minutes. */
type FrozenAmounts = Omit<Amounts, 'extras'> & {
  hours?: number | Readonly<Record<string, number>>;
  extras?: readonly string[] | Readonly<Record<string, number>>;
};

/** Whether something of this name is charged as a product of its own, and not as plain grind. */
export function productTest(session: Session, lines: readonly PriceLine[]): (name: string) => boolean {
  const lookup = productLookup(session);
  const byRecipe = productsOfRecipes(session, lines);
  return (name) => {
    const product = lookup(name)?.code ?? name;
    return byRecipe.has(product) || linesFor(lines, { product, kind: kindOf(name, lookup) }).length > 0;
  };
}

/** Names on the shelf of what goes through the grinder. */
export function groundNames(session: Session): ReadonlySet<string> {
  const grinds = productsOnShelf(session).filter(({ kind }) => kind === 'grind' || kind === 'sausage');
  return new Set(grinds.map(({ name }) => name));
}
