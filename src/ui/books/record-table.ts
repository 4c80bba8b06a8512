import type { RecordRow } from '../../bridge/contract.ts';
import { booksText as text } from '../texts/en-books.ts';
import { words } from '../texts/en.ts';

/** The record book as a table for a spreadsheet: one row for each animal, dates as YYYY-MM-DD. */
export function recordTable(rows: readonly RecordRow[]): { head: string[]; plain: (string | null)[][] } {
  return {
    head: [
      text.ticket,
      text.name,
      text.address,
      text.licence,
      text.tag,
      text.species,
      text.sex,
      text.killed,
      text.killedWhere,
      text.received,
      text.released,
      text.releasedTo,
      text.disposedOn,
      text.disposedHow,
      text.lacks,
    ],
    plain: rows.map((row) => [
      row.ticket,
      row.hunter,
      row.address,
      row.licence,
      row.tag,
      row.speciesName,
      words.sex[row.sex],
      row.killDate,
      row.killArea,
      row.receivedOn,
      row.releasedOn,
      row.releasedTo,
      row.disposedOn,
      row.disposedHow,
      row.lacks.map((code) => text.missing[code] ?? code).join(', '),
    ]),
  };
}
