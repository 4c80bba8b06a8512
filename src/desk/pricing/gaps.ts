/** Products, extras and hours that no price line covers, and price lines that match nothing. */
import { lacksPrice, mayCharge } from '../../core/pricing/cover.ts';
import { applies } from '../../core/pricing/lines.ts';
import type { Amounts, PriceLine } from '../../core/pricing/price.ts';
import { coreLine } from './core-line.ts';
import { productLookup, productsOfRecipes } from './product-lookup.ts';
import { productsOnShelf } from './products-shelf.ts';
import type { Session } from '../session/session.ts';
import type { PriceGaps, PriceLineRow, Unpriced } from '../contract/contract.ts';

/** Offered products that no line charges for any animal, by recipe or otherwise, and names on lines that the shop's list does not have. */
export function priceGaps(session: Session, rows: readonly PriceLineRow[]): PriceGaps {
  const lines = rows.map(coreLine);
  const lookup = productLookup(session);
  const byRecipe = productsOfRecipes(session, lines);
  return {
    unpriced: productsOnShelf(session)
      .filter(
        ({ offered, code, kind }) =>
          offered && !byRecipe.has(code) && lacksPrice(lines, { product: code, kind }),
      )
      .map(({ code, name }) => ({ code, name })),
    unknown: rows.flatMap(({ label, products }) =>
      products.filter((one) => !lookup(one)).map((product) => ({ line: label, product })),
    ),
  };
}

/**
 * Items of a bill or quote that no line charges, or only a line for other species.
 * @param uncovered products, as `priceLines` returns them
 */
export function unpricedOf(
  session: Session,
  lines: readonly PriceLine[],
  amounts: Pick<Amounts, 'species' | 'brought' | 'extras' | 'minutes'>,
  uncovered: readonly string[],
): Unpriced[] {
  const lookup = productLookup(session);
  const missing = (counts: Readonly<Record<string, number>> = {}, basis: string) =>
    Object.keys(counts).flatMap((code) => {
      const own = lines.filter((line) => line.basis === basis && line.code === code);
      if ((counts[code] ?? 0) <= 0 || own.some((line) => applies(line, amounts))) return [];
      return [{ code, name: own[0]?.label ?? code }];
    });
  return [
    ...uncovered.map((code) => ({ what: 'product' as const, code, name: lookup(code)?.name ?? code })),
    ...missing(amounts.extras, 'extra').map((one) => ({ what: 'extra' as const, ...one })),
    ...missing(amounts.minutes, 'hour').map((one) => ({ what: 'hours' as const, ...one })),
  ];
}

/** Lines that can charge a product without a price, for such an animal. */
export function chargeableLines(
  lines: readonly PriceLine[],
  animal: Pick<Amounts, 'species' | 'brought'>,
): { code: string; label: string }[] {
  return lines
    .filter((line) => mayCharge(line.basis) && applies(line, animal))
    .map(({ code, label }) => ({ code, label }));
}
