/** What the desk says of a shop's money, held against the second set of books. */
import { parse } from 'csv-parse/sync';
import { expect } from 'vitest';
import type { FreshDesk } from '../fresh-desk.ts';
import { entriesOf, paid, signed, standing, sum, totalOf, type Kept } from './ledger.ts';

async function fileOf(shop: FreshDesk, what: 'journal' | 'summary'): Promise<Record<string, string>[]> {
  const { id } = await shop.call('till.exportJournal', { what, from: '2026-10-01', to: '2027-01-31' });
  const { base64 } = await shop.call('export.getPiece', { id, from: 0 });
  return parse(Buffer.from(base64, 'base64'), { bom: true, columns: true });
}
const minor = (text: string | undefined): number => Math.round(Number(text || 0) * 100);

/** Each payment and void is in one closing, or in one open day, or waits for the next; and every drawer is even. */
export async function checkTills(shop: FreshDesk, animals: Kept[], days: readonly string[]): Promise<void> {
  const byMethod: Record<string, number> = {};
  const add = (method: string, more: number) => (byMethod[method] = (byMethod[method] ?? 0) + more);
  for (const day of days) {
    const till = await shop.call('till.get', { day });
    if (till.closing) {
      expect(till.closing.overMinor).toBe(0);
      for (const one of [...till.entries, ...till.afterClosing]) add(one.method, one.minor);
    } else
      for (const one of till.entries.slice(till.carried.length)) add(one.method, one.minor);
    const totals = till.sums.filter(({ by }) => by === null).map(({ totalMinor }) => totalMinor);
    expect(sum(totals)).toBe(till.totalMinor);
    expect(sum(till.entries.map((one) => one.minor))).toBe(till.totalMinor);
  }
  const expected: Record<string, number> = {};
  for (const { method, minor: more } of entriesOf(animals).filter((one) => one.method !== ''))
    expected[method] = (expected[method] ?? 0) + more;
  expect(byMethod).toEqual(expected);
} // prettier-ignore

/** Balances, shares and statements are what was billed less what was paid. */
export async function checkAccounts(shop: FreshDesk, animals: Kept[]): Promise<void> {
  const owed = await shop.call('till.listOwed', {});
  for (const kept of animals) {
    const total = totalOf(standing(kept));
    const due = total - paid(kept);
    const view = await shop.call('bills.get', { animalId: kept.animalId });
    expect(view.bill?.totalMinor ?? 0).toBe(total);
    expect(view.paidMinor).toBe(paid(kept));
    if (view.bill) expect(view.dueMinor).toBe(due);
    if (kept.sharer) {
      const ofBob = sum(kept.payments.filter((one) => one.payer === kept.sharer && one.voidDay === null).map(signed));
      expect(view.shares.map(({ paidMinor }) => paidMinor)).toEqual([paid(kept) - ofBob, ofBob]);
      expect(sum(view.shares.map(({ dueMinor }) => dueMinor))).toBe(view.dueMinor);
    }
    // What each hunter of the animal owes; who is settled is not listed.
    const open = view.shares.length > 0 ? view.shares.map(({ hunterId, dueMinor }) => [hunterId, dueMinor] as const) : [[kept.owner, due] as const];
    if (view.bill) expect(sum(open.map(([, dueMinor]) => dueMinor))).toBe(due);
    for (const [hunterId, dueMinor] of open) {
      const owes = view.bill ? dueMinor : 0;
      const rows = owed.filter((one) => one.hunterId === hunterId).flatMap((one) => one.animals);
      expect(rows.map((row) => [row.animalId, row.dueMinor])).toEqual(owes === 0 ? [] : [[kept.animalId, owes]]);
      const statement = await shop.call('till.getStatement', { hunterId });
      expect(sum(statement.accounts.map((account) => account.dueMinor))).toBe(owes);
    }
  }
} // prettier-ignore

/** The journal holds each document and void once, and the summary adds them up. */
export async function checkFiles(shop: FreshDesk, animals: Kept[]): Promise<void> {
  const entries = entriesOf(animals);
  const journal = await fileOf(shop, 'journal');
  const inFile = Map.groupBy(journal, (row) => `${row['date']} ${row['type']} ${row['number']}`);
  const sums = [...inFile].map(([key, rows]) => [
    key,
    sum(rows.map((row) => minor(row['net']) + minor(row['tax']) + minor(row['payment']))),
  ]);
  const kept = entries.map(({ day, type, number, minor: one }) => [`${day} ${type} ${number}`, one]);
  expect(sums.sort()).toEqual(kept.sort());
  const summary = await fileOf(shop, 'summary');
  const months = [...new Set(entries.map(({ day }) => day.slice(0, 7)))].sort();
  for (const month of months) {
    const of = (section: string, item?: string) =>
      sum(summary.filter((row) => row['month'] === month && row['section'] === section && (item === undefined || row['item'] === item)).map((row) => minor(row['amount'])));
    const inMonth = (test: (type: string, method: string) => boolean) =>
      sum(entries.filter(({ day, type, method }) => day.startsWith(month) && test(type, method)).map((one) => one.minor));
    expect(of('service')).toBe(inMonth((type) => type.startsWith('bill')));
    expect(of('tax')).toBe(of('service'));
    for (const method of ['cash', 'card', 'check']) {
      expect(of('payments', method)).toBe(inMonth((type, by) => by === method && !type.startsWith('refund')));
      expect(of('refunds', method)).toBe(inMonth((type, by) => by === method && type.startsWith('refund')));
      expect(of('voided payments', method)).toBe(inMonth((type, by) => by === method && type.endsWith(' void')));
    }
    expect(of('voided bills')).toBe(inMonth((type) => type === 'bill void'));
    const until = entries.filter(({ day }) => day.slice(0, 7) <= month);
    expect(of('open balance')).toBe(sum(until.map(({ type, minor: one }) => (type.startsWith('bill') ? one : -one))));
  }
} // prettier-ignore
