import { stringify } from 'csv-stringify/sync';
import * as v from 'valibot';
import type { Db } from '../../book/file/db.ts';
import { journalRecords, type JournalRecords } from '../../book/records/money/journal.ts';
import { addDays } from '../../core/values/dates.ts';
import { shielded } from '../../core/values/csv.ts';
import { decimalText } from '../../core/values/money.ts';
import { ProblemError } from '../contract/problem.ts';
import { writeExport, writeText } from '../export/outbox.ts';
import { date } from '../input/input.ts';
import { language } from '../input/language.ts';
import { lineIn, reasonIn } from '../names/names.ts';
import type { Language } from '../../words/languages.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { startOf } from './day-entries.ts';
import { JOURNAL_COLUMNS, SUMMARY_COLUMNS, layoutText } from './journal-layout.ts';
import { journalRows, type JournalRow } from './journal-rows.ts';
import { MonthSummary } from './month-summary.ts';

/** Tells spreadsheets that the text is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF';

/**
 * Packs the accountant's file for a date range: the journal line by line, its monthly summary, or the description of
 * columns. The parts are fetched with `export.getPiece`. @throws ProblemError `export.busy`, `journal.span`
 */
export const exportJournal = read(
  v.object({
    what: v.picklist(['journal', 'summary', 'layout'], 'choice.take-out'),
    from: date,
    to: date,
    language,
  }),
  async (session, { what, from, to, language: of }) => {
    if (from > to) throw new ProblemError('invalid', 'journal.span', { field: 'to', with: { from, to } });
    const text = {
      journal: (db: Db) => journalText(session, db, from, to, of),
      summary: (db: Db) => summaryText(session, db, from, to, of),
      layout: () => [layoutText(of)],
    }[what];
    const packed = await writeExport(session, (path, db) => writeText(path, text(db)));
    const name = { journal: 'journal', summary: 'monthly-summary', layout: 'journal-layout' }[what];
    return { ...packed, name: what === 'layout' ? `${name}.txt` : `${name}-${from}-${to}.csv` };
  },
);

function* journalText(session: Session, db: Db, from: string, to: string, of: Language): Generator<string> {
  yield BYTE_ORDER_MARK + csv([JOURNAL_COLUMNS]);
  const records = journalRecords(db);
  for (const day of daysOf(from, to)) {
    // A place to let other calls in, even on days without a line.
    yield '';
    for (const row of rowsOf(session, records, day, of)) {
      const money = (minor: number): string => decimalText(minor, row.currency);
      const billed = row.type.startsWith('bill');
      yield csv([
        [
          row.date,
          row.type,
          row.number,
          row.hunter,
          row.ticket,
          row.description,
          billed ? money(row.netMinor) : '',
          row.taxRate ?? '',
          billed ? money(row.taxMinor) : '',
          billed ? '' : money(row.paymentMinor),
          row.method,
          row.currency,
        ],
      ]);
    }
  }
}

function* summaryText(session: Session, db: Db, from: string, to: string, of: Language): Generator<string> {
  yield BYTE_ORDER_MARK + csv([SUMMARY_COLUMNS]);
  const records = journalRecords(db);
  const opened = records.balanceBefore(from, startOf(session, from));
  let balance: ReadonlyMap<string, number> = new Map(opened.map(({ currency, minor }) => [currency, minor]));
  for (const month of monthsOf(from, to)) {
    const summary = new MonthSummary(balance);
    for (const day of daysOf(month.from, month.to)) {
      yield '';
      for (const row of rowsOf(session, records, day, of)) summary.add(row);
    }
    balance = summary.balance();
    yield csv(
      summary.rows().map((row) => {
        const money = (minor: number): string => decimalText(minor, row.currency);
        const billed = ['service', 'tax', 'voided bills'].includes(row.section);
        return [
          month.from.slice(0, 7),
          row.section,
          row.item,
          billed ? money(row.netMinor) : '',
          billed ? money(row.taxMinor) : '',
          money(row.amountMinor),
          row.currency,
        ];
      }),
    );
  }
}

/** The lines of one day, in the order of their entry, with labels and reasons in a language. */
function* rowsOf(
  session: Session,
  records: JournalRecords,
  day: string,
  of: Language,
): Generator<JournalRow> {
  const documents = records.documents({
    fromDay: day,
    toDay: day,
    from: startOf(session, day),
    until: startOf(session, addDays(day, 1)),
  });
  documents.sort((a, b) => order(a.at, b.at));
  for (const one of documents) {
    const reason = one.reason === null ? null : reasonIn(of, one.reason);
    const lines = one.what === 'bill' ? records.lines(one.id) : [];
    const said = lines.map((line) => ({ ...line, label: lineIn(of, line.label) }));
    yield* journalRows({ ...one, reason }, day, said);
  }
}

const order = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

interface Month {
  from: string;
  to: string;
}

/**
 * The months of a range, clipped to it.
 * @example monthsOf('2026-10-15', '2026-11-02') // 10-15 to 10-31, 11-01 to 11-02
 */
function* monthsOf(from: string, to: string): Generator<Month> {
  for (let first = from; first <= to;) {
    const next = firstOfNext(first);
    const last = addDays(next, -1);
    yield { from: first, to: last < to ? last : to };
    first = next;
  }
}

function* daysOf(from: string, to: string): Generator<string> {
  for (let day = from; day <= to; day = addDays(day, 1)) yield day;
}

function firstOfNext(day: string): string {
  const [year = 0, month = 0] = day.split('-').map(Number);
  return new Date(Date.UTC(year, month, 1)).toISOString().slice(0, 10);
}

/** Escapes text that a spreadsheet would run as a formula; numbers and amounts are unchanged. */
function csv(rows: readonly (readonly (string | number)[])[]): string {
  const safe = rows.map((row) =>
    row.map((cell) => (typeof cell === 'number' || isAmount(cell) ? cell : shielded(cell))),
  );
  return stringify(safe, { record_delimiter: '\r\n', quoted_match: /;/ });
}

const isAmount = (cell: string): boolean => /^-?\d+(\.\d+)?$/.test(cell);
