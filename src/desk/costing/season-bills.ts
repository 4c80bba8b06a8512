/** A season's valid bills with their frozen amounts, for repricing. */
import type { Amounts, PriceLine } from '../../core/pricing/price.ts';
import { productsOnShelf } from '../pricing/products-shelf.ts';
import type { Session } from '../session/session.ts';
import type { Range } from '../contract/contract.ts';

export interface BilledAnimal {
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
 * Frozen amounts for these lines: a product that no longer has a price counts as grind, if it is one, as on a new
 * bill.
 */
export function amountsFor(session: Session, lines: readonly PriceLine[]): (amounts: Amounts) => Amounts {
  const priced = new Set(lines.flatMap(({ basis, product }) => (basis === 'product' ? [product] : [])));
  const ground = groundNames(session);
  return (amounts) => {
    const kept = Object.entries(amounts.products ?? {});
    const folded = kept.filter(([product]) => !priced.has(product) && ground.has(product));
    return {
      ...amounts,
      groundGrams: folded.reduce((total, [, grams]) => total + grams, amounts.groundGrams),
      products: Object.fromEntries(kept.filter((one) => !folded.includes(one))),
    };
  };
}

/** Names of the ground products on the shelf. */
export function groundNames(session: Session): ReadonlySet<string> {
  const grinds = productsOnShelf(session).filter(({ kind }) => kind === 'grind' || kind === 'sausage');
  return new Set(grinds.map(({ name }) => name));
}
