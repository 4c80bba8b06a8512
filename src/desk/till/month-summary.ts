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
 * The summary of a month, from its journal lines one by one: services by price line and tax by rate, less voids; payments and
 * refunds by method, less voids; then the voids, and the open balance at the end of the month.
 */
export class MonthSummary {
  readonly #sums = new Map<string, SummaryRow>();
  readonly #balance: Map<string, number>;

  /** @param opened the open balance in each currency before the first line */
  constructor(opened: ReadonlyMap<string, number>) {
    this.#balance = new Map(opened);
  }

  add(row: JournalRow): void {
    const { type, netMinor, taxMinor, paymentMinor, currency } = row;
    const billedMinor = netMinor + taxMinor;
    const billed = { netMinor, taxMinor, amountMinor: billedMinor };
    const paid = { netMinor: 0, taxMinor: 0, amountMinor: paymentMinor };
    this.#balance.set(currency, (this.#balance.get(currency) ?? 0) + billedMinor - paymentMinor);
    if (type.startsWith('bill')) {
      this.#sum('service', row.service, currency, billed);
      this.#sum('tax', row.taxRate === null ? 'mixed' : String(row.taxRate), currency, billed);
      if (type === 'bill void') this.#sum('voided bills', '', currency, billed);
    } else {
      this.#sum(type.startsWith('refund') ? 'refunds' : 'payments', row.method, currency, paid);
      if (type.endsWith(' void')) this.#sum('voided payments', row.method, currency, paid);
    }
  }

  rows(): SummaryRow[] {
    return [...[...this.#sums.values()].sort(inOrder), ...openRows(this.#balance)];
  }

  /** The open balance in each currency after the last line. */
  balance(): ReadonlyMap<string, number> {
    return this.#balance;
  }

  #sum(section: SummaryRow['section'], item: string, currency: string, more: Sums): void {
    const key = JSON.stringify([section, item, currency]);
    const sum = this.#sums.get(key) ?? {
      section, item, currency, netMinor: 0, taxMinor: 0, amountMinor: 0,
    }; // prettier-ignore
    this.#sums.set(key, {
      ...sum,
      netMinor: sum.netMinor + more.netMinor,
      taxMinor: sum.taxMinor + more.taxMinor,
      amountMinor: sum.amountMinor + more.amountMinor,
    });
  }
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
