/** A cache of bills repriced by a price book. Neither a bill nor a price book ever changes. */
import { priceLines, type Amounts } from '../../core/pricing/price.ts';
import { incomeCodeOf } from './income.ts';
import type { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';
import { productsOnShelf } from '../pricing/products-shelf.ts';
import { amountsFor } from './season-bills.ts';
import type { IncomeCode } from '../contract/contract.ts';

type Prices = ReturnType<typeof pricesInForce>;

export interface RepricedBill {
  amounts: Amounts;
  productGrams: number;
  fatGrams: number;
  /** What these prices would have charged for each service, in minor units; computed on first use. */
  charged(): Readonly<Record<IncomeCode, number>>;
}

export function noCharges(): Record<IncomeCode, number> {
  return { cutting: 0, grinding: 0, products: 0, fat: 0, extras: 0, whole: 0 };
}

const cache = new WeakMap<Amounts, { by: string; seen: RepricedBill }>();

/** @param prices null without a price book */
export function repricedBills(session: Session, prices: Prices): (amounts: Amounts) => RepricedBill {
  const lines = prices?.lines ?? [];
  const shelf = productsOnShelf(session).map(({ code, name, kind }) => [code, name, kind]);
  const by = JSON.stringify([prices?.id, shelf]);
  const seen = amountsFor(session, lines);
  return (amounts) => {
    const known = cache.get(amounts);
    if (known?.by === by) return known.seen;
    const one = reprice(seen(amounts), prices);
    cache.set(amounts, { by, seen: one });
    return one;
  };
}

function reprice(amounts: Amounts, prices: Prices): RepricedBill {
  let taken: Record<IncomeCode, number> | undefined;
  return {
    amounts,
    productGrams: sum(Object.values(amounts.products ?? {})),
    fatGrams: sum(Object.values(amounts.fats ?? {})),
    charged() {
      if (taken) return taken;
      taken = noCharges();
      if (prices)
        for (const { basis, amountMinor } of priceLines({ ...prices, amounts }).lines)
          taken[incomeCodeOf(basis)] += amountMinor;
      return taken;
    },
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}
