import { formatMass } from '../../core/units.ts';
import type { BatchPage, FatLotRow } from '../../bridge/contract.ts';
import { grinderText as text } from '../texts/en-grinder.ts';
import { lotName, standing } from './to-weigh.ts';

/** Net weights on labels: hundredths of a pound, thousandths of a kilogram. */
const LB_STEP = 0.01;
const KG_STEP = 0.005;

/** What stands on a package of a batch, line by line. */
export interface LabelLines {
  species: string;
  product: string;
  tickets: string;
  net: string;
  ingredients: string | null;
  cookTo: string;
  notForSale: string;
}

/**
 * The label of one package. A custom pack must say NOT FOR SALE in letters of at least 3/8 in; that replaces the
 * other lines of an inspected label, and what else is true may stand there (9 CFR 317.16). Ingredients are listed
 * where fat was added, in order of weight: common practice, no source.
 * @param netGrams weight of the meat in the package
 */
export function labelLines(
  batch: Pick<BatchPage, 'species' | 'product' | 'weighedIn' | 'cookTo'>,
  netGrams: number,
  lots: readonly FatLotRow[],
  locale: string,
): LabelLines {
  const rows = standing(batch.weighedIn);
  const tickets = [
    ...new Set(rows.flatMap((row) => (row.ticket && row.fatLot === null ? [row.ticket] : []))),
  ];
  return {
    species: batch.species.join(' + '),
    product: batch.product,
    tickets: tickets.join(', '),
    net: text.netWeight(
      formatMass(netGrams, 'lb', LB_STEP, locale),
      formatMass(netGrams, 'kg', KG_STEP, locale),
    ),
    ingredients: ingredients(rows, batch.species, lots),
    cookTo: text.cookTo(batch.cookTo.f, batch.cookTo.c),
    notForSale: text.notForSale,
  };
}

function ingredients(
  rows: BatchPage['weighedIn'],
  species: readonly string[],
  lots: readonly FatLotRow[],
): string | null {
  const grams = new Map<string, number>();
  for (const row of rows) {
    const name = lotName(row.fatLot, lots) ?? species.join(' + ');
    grams.set(name, (grams.get(name) ?? 0) + row.grams);
  }
  if (rows.every((row) => row.fatLot === null)) return null;
  const names = [...grams].toSorted((a, b) => b[1] - a[1]).map(([name]) => name.toLowerCase());
  return text.ingredients(names.join(', '));
}
