import { momentAt } from './invented/calendar.ts';
import type { Counter } from './counter.ts';
import { PRICES, SHOP } from './invented/invention.ts';
import { setOwnShares } from './own-recipes.ts';
import { setUpRecipes } from './smokehouse.ts';

/** Prices are multiples of five cents. */
const ROUND_TO = 5;
/** Entered in the morning, a week before they take effect. */
const WRITTEN = 8 * 60;

/**
 * The shop's name, staff and price books. Its newest price book is its own, so that the supplied example never
 * shows.
 */
export function setUpShop(counter: Counter): void {
  const by = SHOP.staff[0]?.initials ?? '';
  const { shopName, unit, ...changes } = SHOP.settings;
  for (const [i, { name, validFrom, share }] of PRICES.books.entries()) {
    counter.setClock(momentAt(validFrom, WRITTEN));
    const lines = PRICES.lines.map((line) => ({
      ...line,
      amountMinor:
        line.amountMinor === null ? null : Math.round((line.amountMinor * share) / ROUND_TO) * ROUND_TO,
    }));
    counter.call('prices.save', { name, validFrom, lines, by });
    if (i > 0) continue;
    counter.call('shop.setUp', { shopName, unit, by });
    counter.call('shop.saveSettings', { changes, by });
    for (const { initials, name: staff } of SHOP.staff)
      counter.call('shop.addStaff', { initials, name: staff, by });
    counter.call('costing.save', { ...SHOP.costs, by });
    setUpRecipes(counter, by);
    setOwnShares(counter, by);
  }
}
