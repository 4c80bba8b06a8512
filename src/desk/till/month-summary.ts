import type { JournalRow } from './journal-rows.ts';

/** One line of a month's summary, in minor units. */
export interface SummaryRow {
  section: 'service' | 'tax' | 'payments' | 'refunds' | 'voided bills' | 'voided payments' | 'open balance';
  item: string;
  currency: string;
  netMinor: number;
  taxMinor: number;
  amountMinor: number;
}

type Sums = Pick<SummaryRow, 'netMinor' | 'taxMinor' | 'amountMinor'>;

/**
 * Summarizes the journal lines of a month: services by price line and tax by rate, less voids; payments and refunds
 * by method, less voids; then the voids, and the open balance at the end of the month.
 * @param opened the open balance in each currency before the first line
 */
export function monthSummary(
  rows: readonly JournalRow[],
  opened: ReadonlyMap<string, number>,
): { rows: SummaryRow[]; balance: Map<string, number> } {
  const sums = new Map<string, SummaryRow>();
  const balance = new Map(opened);
  const add = (section: SummaryRow['section'], item: string, row: JournalRow, more: Sums): void => {
    const key = JSON.stringify([section, item, row.currency]);
    const sum = sums.get(key) ?? {
      section, item, currency: row.currency, netMinor: 0, taxMinor: 0, amountMinor: 0,
    }; // prettier-ignore
    sums.set(key, {
      ...sum,
      netMinor: sum.netMinor + more.netMinor,
      taxMinor: sum.taxMinor + more.taxMinor,
      amountMinor: sum.amountMinor + more.amountMinor,
    });
  };
  for (const row of rows) {
    const { type, netMinor, taxMinor, paymentMinor, currency } = row;
    const billedMinor = netMinor + taxMinor;
    const billed = { netMinor, taxMinor, amountMinor: billedMinor };
    const paid = { netMinor: 0, taxMinor: 0, amountMinor: paymentMinor };
    balance.set(currency, (balance.get(currency) ?? 0) + billedMinor - paymentMinor);
    if (type.startsWith('bill')) {
      add('service', row.service, row, billed);
      add('tax', row.taxRate === null ? 'mixed' : String(row.taxRate), row, billed);
      if (type === 'bill void') add('voided bills', '', row, billed);
    } else {
      add(type.startsWith('refund') ? 'refunds' : 'payments', row.method, row, paid);
      if (type.endsWith(' void')) add('voided payments', row.method, row, paid);
    }
  }
  return { rows: [...[...sums.values()].sort(inOrder), ...openRows(balance)], balance };
}

const SECTIONS: readonly SummaryRow['section'][] = [
  'service', 'tax', 'payments', 'refunds', 'voided bills', 'voided payments', 'open balance',
]; // prettier-ignore

function inOrder(a: SummaryRow, b: SummaryRow): number {
  return (
    SECTIONS.indexOf(a.section) - SECTIONS.indexOf(b.section) ||
    a.currency.localeCompare(b.currency, 'en') ||
    a.item.localeCompare(b.item, 'en')
  );
}

function openRows(balance: ReadonlyMap<string, number>): SummaryRow[] {
  return [...balance].map(([currency, amountMinor]) => ({
    section: 'open balance',
    item: '',
    currency,
    netMinor: 0,
    taxMinor: 0,
    amountMinor,
  }));
}
