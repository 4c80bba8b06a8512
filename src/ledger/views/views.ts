/** The views of a ledger, which `prepare.ts` makes once the books' tables are there. */
import { backlogByAnimal, backlogByShop, backlogBySpecies } from './backlog.ts';
import { fatByBatch } from './fat.ts';
import { HELPERS } from './helpers.ts';
import { feeByLine, moneyByBill } from './money.ts';
import { quoteAccuracy } from './quotes.ts';
import { shopNow } from './shop.ts';
import { viewSql, type ReportView } from './view.ts';
import { yieldByAnimal } from './yield.ts';

/**
 * Raised with every change of a view. A view is renewed in place, so that reports built on it go on: columns may be added at
 * its end, and neither moved nor taken out.
 */
export const VIEWS_VERSION = 1;

/** The oldest book that has every table of the views. */
export const VIEWS_FROM_BOOK = 21;

/** In the order in which they build on each other. */
export const VIEWS: readonly ReportView[] = [
  shopNow,
  yieldByAnimal,
  fatByBatch,
  moneyByBill,
  feeByLine,
  quoteAccuracy,
  backlogByAnimal,
  backlogBySpecies,
  backlogByShop,
];

/** SQL that makes all of them, or renews them. */
export function viewsSql(): string {
  return [HELPERS, ...VIEWS.map(viewSql)].join(';\n');
}

/**
 * SQL that takes all of them out, before a table of theirs is taken out. It fails where somebody's own view is built on one: that is
 * not ours to remove.
 */
export function dropViewsSql(): string {
  return VIEWS.toReversed()
    .map(({ name }) => `DROP VIEW IF EXISTS ledger.${name}`)
    .join(';\n');
}
