/** Finds a product by name or code: orders and weights refer to it by name, price lines by code. */
import { byName } from '../../core/values/by-name.ts';
import { madeOf } from '../../core/pricing/cover.ts';
import type { Amounts, MadeOf, PriceLine } from '../../core/pricing/lines.ts';
import { PRODUCT_KINDS, type ProductKind } from '../../trade/product.ts';
import { productsOnShelf, suppliedNames } from './products-shelf.ts';
import type { Session } from '../session/session.ts';
import type { PriceLineRow } from '../contract/contract.ts';

export interface ListedProduct {
  code: string;
  name: string;
  kind: ProductKind;
  offered: boolean;
}

/** The product with this name or code, ignoring case; undefined if the shop's list has none. */
export type ProductLookup = (typed: string) => ListedProduct | undefined;

/**
 * Current names come before codes, and both before the original names of supplied products that the shop renamed,
 * which older weights have. Archived products are found too.
 */
export function productLookup(session: Session): ProductLookup {
  const found = new Map<string, ListedProduct>();
  const add = (called: string, product: ListedProduct): void => {
    const key = keyOf(called);
    if (!found.has(key)) found.set(key, product);
  };
  const all = productsOnShelf(session);
  for (const one of all) add(one.name, one);
  for (const one of all) add(one.code, one);
  for (const one of all) {
    const supplied = suppliedNames.get(one.code);
    if (supplied !== undefined) add(supplied, one);
  }
  return (typed) => found.get(keyOf(typed));
}

/**
 * What a text refers to: a product; a kind by its word ("Sausage", "sausages"); or an unlisted name, which stays as
 * typed.
 */
export function namedBy(typed: string, lookup: ProductLookup): Pick<PriceLineRow, 'products' | 'kinds'> {
  const product = lookup(typed);
  if (product) return { products: [product.code], kinds: [] };
  const kind = kindOf(typed, lookup);
  return kind ? { products: [], kinds: [kind] } : { products: [typed], kinds: [] };
}

/** The kind of a product, or the kind with this word; undefined if unknown. */
export function kindOf(typed: string, lookup: ProductLookup): ProductKind | undefined {
  const word = keyOf(typed);
  return lookup(typed)?.kind ?? PRODUCT_KINDS.find((one) => word === one || word === `${one}s`);
}

/** Codes of the products that these lines charge by a recipe, whatever else is charged. */
export function productsOfRecipes(session: Session, lines: readonly PriceLine[]): ReadonlySet<string> {
  const lookup = productLookup(session);
  const recipes = new Set(lines.flatMap((line) => line.recipes ?? []));
  return new Set(
    [...recipes].flatMap((recipe) => {
      const row = session.book.recipes.get(Number(recipe));
      return row ? [lookup(row.product)?.code ?? row.product] : [];
    }),
  );
}

/** A line with names replaced by codes and kinds, so that products can be renamed later. */
export function listedLine<L extends Pick<PriceLineRow, 'products' | 'kinds'>>(
  line: L,
  lookup: ProductLookup,
): L {
  const named = line.products.map((typed) => namedBy(typed, lookup));
  const products = named.flatMap((one) => one.products);
  const kinds = [...line.kinds, ...named.flatMap((one) => one.kinds)];
  return { ...line, products: [...new Set(products)], kinds: [...new Set(kinds)] };
}

/** Amounts by product code, with kinds and how they were made; unlisted products stay by name. */
export function listedProducts(
  amounts: Pick<Amounts, 'products' | 'kinds' | 'made'>,
  lookup: ProductLookup,
): Pick<Amounts, 'products' | 'kinds' | 'made'> {
  const products = byName<number>();
  const kinds = byName<ProductKind | 'unlisted'>();
  const made = byName<MadeOf[]>();
  for (const [called, grams] of Object.entries(amounts.products ?? {})) {
    const listed = lookup(called);
    const code = listed?.code ?? called;
    products[code] = (products[code] ?? 0) + grams;
    const kind = kindOf(called, lookup) ?? amounts.kinds?.[called];
    if (kind) kinds[code] = kind;
    made[code] = [...(made[code] ?? []), ...madeOf(amounts, called)];
  }
  return { products, kinds, ...(amounts.made && { made }) };
}

function keyOf(typed: string): string {
  return typed.trim().toLowerCase();
}
