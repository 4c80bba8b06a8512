/** A season's bills recalculated with other prices, each with its own changes and for what was done. Nothing is stored. */
import * as v from 'valibot';
import { linesFor } from '../../core/pricing/cover.ts';
import { isByProduct } from '../../core/pricing/by-product.ts';
import { priceLines, type Amounts, type PriceLine } from '../../core/pricing/price.ts';
import { adjustmentCode, coreAdjustments, isOfAdjustment } from '../pricing/adjustments.ts';
import { linesOf } from '../pricing/prices-of.ts';
import { standingAdjustments } from '../pricing/standing-adjustments.ts';
import { priceLineList, taxRule } from '../pricing/price-input.ts';
import { coreLine } from '../pricing/core-line.ts';
import { priceGaps } from '../pricing/gaps.ts';
import { kindOf, listedLine, productLookup, productsOfRecipes } from '../pricing/product-lookup.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { mapInSlices } from '../session/slices.ts';
import { amountsFor, billedAnimals } from './season-bills.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { PricesTried } from '../contract/contract.ts';
import { TAX_LABEL } from '../names/line-labels.ts';

/** Number of animals listed; the rest is in the sums. */
const NAMED = 10;
const TAX = 'tax';

/** The newest season with bills by default. */
export const tryPrices = read(
  v.object({
    season: v.optional(seasonYear),
    taxRule,
    lines: priceLineList,
  }),
  async (session, input): Promise<PricesTried> => {
    const { currency } = session.settings;
    const season = input.season ?? session.book.seasonMoney.newestBilled(currency) ?? session.season();
    const lookup = productLookup(session);
    const rows = input.lines.map((line) => listedLine(line, lookup));
    const lines = rows.map(coreLine);
    const seen = amountsFor(session, lines);
    // Few animals have either, and none is asked about alone.
    const unprocessed = session.book.leaving.unprocessedIn(season);
    const adjusted = session.book.adjustments.animalsIn(season);
    const bills = await mapInSlices(billedAnimals(session, season), (bill) => {
      const own = unprocessed.has(bill.animalId) ? linesOf(session, bill.animalId, lines) : lines;
      const standing = adjusted.has(bill.animalId)
        ? standingAdjustments(session, bill.animalId, currency)
        : [];
      const { adjustments } = coreAdjustments(own, standing);
      return {
        ...bill,
        now: priceLines({ lines: own, amounts: seen(bill.amounts), taxRule: input.taxRule, adjustments }),
        adjusted: standing.length > 0,
        unprocessed: own.length < lines.length,
      };
    });
    const changed = bills.filter(({ totalMinor, now }) => now.totalMinor !== totalMinor);
    return {
      season,
      animals: bills.length,
      adjusted: bills.filter(({ adjusted }) => adjusted).length,
      unprocessed: bills.filter(({ unprocessed }) => unprocessed).length,
      thenMinor: sum(bills, ({ totalMinor }) => totalMinor),
      nowMinor: sum(bills, ({ now }) => now.totalMinor),
      lines: byLine(
        session,
        season,
        bills.flatMap(({ now }) => now.lines),
        {
          then: sum(bills, ({ totalMinor, subtotalMinor }) => totalMinor - subtotalMinor),
          now: sum(bills, ({ now }) => now.taxMinor),
        },
      ),
      species: bySpecies(session, bills),
      most: changed
        .sort((a, b) => Math.abs(b.now.totalMinor - b.totalMinor) - Math.abs(a.now.totalMinor - a.totalMinor))
        .slice(0, NAMED)
        .map(({ ticket, species, totalMinor, now }) => ({
          ticket,
          speciesName: session.species.of(species).name,
          thenMinor: totalMinor,
          nowMinor: now.totalMinor,
        })),
      notSplit: notSplit(session, lines, bills),
      gaps: priceGaps(session, rows),
    };
  },
);

/** What these lines charge for and bills from before do not tell apart: products, trim and recipes. */
function notSplit(
  session: Session,
  lines: readonly PriceLine[],
  bills: readonly { amounts: Amounts }[],
): string[] {
  const lookup = productLookup(session);
  const codeOf = (called: string): string => lookup(called)?.code ?? called;
  const told = new Set(bills.flatMap(({ amounts }) => Object.keys(amounts.products ?? {}).map(codeOf)));
  const mute = new Set(
    bills.flatMap(({ amounts }) => (amounts.made ? [] : Object.keys(amounts.products ?? {}).map(codeOf))),
  );
  const ofRecipes = productsOfRecipes(session, lines);
  const byTrim = lines.filter(({ basis }) => basis === 'trim');
  const untold = bills.some(({ amounts }) => amounts.kinds === undefined)
    ? lines
        .flatMap((line) => (isByProduct(line.basis) ? (line.products ?? []) : []))
        .filter((one) => !told.has(one))
    : [];
  const unmade = [...mute].filter(
    (one) => ofRecipes.has(one) || linesFor(byTrim, { product: one, kind: kindOf(one, lookup) }).length > 0,
  );
  return [...new Set([...untold, ...unmade])].map((one) => lookup(one)?.name ?? one);
}

function byLine(
  session: Session,
  season: number,
  charged: readonly { code: string; label: string; basis: string; amountMinor: number }[],
  tax: { then: number; now: number },
): PricesTried['lines'] {
  const rows = new Map<string, PricesTried['lines'][number]>();
  const add = (
    line: { code: string; label: string; basis: string },
    thenMinor: number,
    nowMinor: number,
  ): void => {
    const { label, basis } = line;
    // What different bills call alike is one line, whatever its number is on each.
    const code = isOfAdjustment(line.code) ? adjustmentCode(label) : line.code;
    const key = `${basis} ${code}`;
    const row = rows.get(key) ?? { code, label, basis, thenMinor: 0, nowMinor: 0 };
    rows.set(key, { ...row, thenMinor: row.thenMinor + thenMinor, nowMinor: row.nowMinor + nowMinor });
  };
  for (const line of session.book.seasonMoney.lines(season, session.settings.currency))
    add(line, line.amount_minor, 0);
  for (const line of charged) add(line, 0, line.amountMinor);
  if (tax.then !== 0 || tax.now !== 0) add({ code: TAX, label: TAX_LABEL, basis: TAX }, tax.then, tax.now);
  return [...rows.values()];
}

function bySpecies(
  session: Session,
  bills: readonly { species: string; totalMinor: number; now: { totalMinor: number } }[],
): PricesTried['species'] {
  return [...Map.groupBy(bills, ({ species }) => species)]
    .map(([code, own]) => ({
      code,
      name: session.species.of(code).name,
      animals: own.length,
      thenMinor: sum(own, ({ totalMinor }) => totalMinor),
      nowMinor: sum(own, ({ now }) => now.totalMinor),
    }))
    .sort((a, b) => b.animals - a.animals || a.name.localeCompare(b.name));
}

function sum<T>(rows: readonly T[], of: (row: T) => number): number {
  return rows.reduce((total, row) => total + of(row), 0);
}
