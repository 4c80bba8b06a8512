import { isByProduct } from '../../core/pricing/by-product.ts';
import type { PriceLine } from '../../core/pricing/price.ts';
import { leastLabel } from '../names/line-labels.ts';
import type { PriceLineRow } from '../contract/contract.ts';

/** Unused columns are null in the book and absent in the core. */
export function coreLine(row: PriceLineRow): PriceLine {
  const {
    code,
    label,
    basis,
    amountMinor,
    rate,
    unit,
    species,
    brought,
    products,
    kinds,
    recipes,
    least,
    fatSource,
    taxRate,
  } = row;
  return {
    code,
    label,
    basis: basis as PriceLine['basis'],
    taxRate,
    ...(amountMinor === null ? {} : { amountMinor }),
    ...(rate === null ? {} : { rate }),
    ...(unit === null ? {} : { unit }),
    ...(species === null ? {} : { species }),
    ...(brought === null ? {} : { brought }),
    ...(isByProduct(basis) ? { products, kinds, recipes: recipes.map(String) } : {}),
    ...(least === null ? {} : { least, leastLabel: leastLabel(label, least, unit ?? '') }),
    ...(fatSource === null ? {} : { fatSource }),
    ...(basis === 'extra' ? { extra: code } : {}),
  };
}
