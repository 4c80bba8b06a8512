import type { RecordRow } from '../../bridge/contract.ts';
import { fromGrams } from '../../core/values/units.ts';
import type { Format } from '../texts/format.ts';
import { wordFor } from '../texts/codes.ts';
import { withPieces } from '../texts/pieces.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/books/record.ts';
import { text as holdText } from '../../words/compiled/window/hold.ts';
import { lackingText } from '../texts/lacking.ts';
import { belongingsText, madeText, sharersText } from './record-cells.ts';

/** A number with a decimal point, which every spreadsheet program reads. */
const percent = (share: number): string => `${(share * 100).toFixed(1)}%`;

type Cell = string | number | null;

/**
 * The record book as a spreadsheet without prices: one row for each animal, dates as YYYY-MM-DD, weights in the
 * shop's unit.
 */
export function recordTable(
  rows: readonly RecordRow[],
  format: Pick<Format, 'unit' | 'mass'>,
): { head: string[]; plain: Cell[][] } {
  const { unit } = format;
  const mass = (grams: number | null): number | null =>
    grams === null ? null : Number(fromGrams(grams, unit).toFixed(2));
  const columns: [string, (row: RecordRow) => Cell][] = [
    [text.ticket, (row) => row.ticket],
    [text.ownerName, (row) => row.hunter],
    [text.ownerAddress, (row) => row.address],
    [text.ownerPhone, (row) => row.phone],
    [text.sharers, (row) => sharersText(row, { share: percent, day: (date) => date }).join('; ')],
    [text.deliverer, (row) => row.deliverer],
    [text.delivererAddress, (row) => row.delivererAddress],
    [text.licence, (row) => row.licence],
    [text.tag, (row) => row.tag],
    [text.species, (row) => row.speciesName],
    [text.sex, (row) => words.sex[row.sex]],
    [text.brought, (row) => broughtText(row)],
    [text.belongings, (row) => belongingsText(row, { day: (date) => date }).join('; ')],
    [text.killed, (row) => row.killDate],
    [text.killArea, (row) => row.killArea],
    [text.received, (row) => row.receivedOn],
    [text.entered, (row) => row.enteredOn],
    [text.receivedIn({ unit }), (row) => mass(row.receivedGrams)],
    [text.hangingIn({ unit }), (row) => mass(row.hangingGrams)],
    [text.packedIn({ unit }), (row) => mass(row.packedGrams)],
    [text.groundPackages, (row) => row.groundPackages],
    [text.groundIn({ unit }), (row) => mass(row.groundGrams)],
    [text.made, (row) => madeText(row, format).join(' | ')],
    [text.stage, (row) => words.stage[row.stage]],
    [text.leftOn, (row) => row.releasedOn],
    [text.leftTo, (row) => row.releasedTo],
    [text.canceledOn, (row) => row.canceled?.on ?? null],
    [text.canceledWhy, (row) => row.canceled?.reason ?? null],
    [text.disposedOn, (row) => row.disposedOn],
    [text.disposedWhat, (row) => row.disposedWhat],
    [text.disposedHow, (row) => row.disposedHow],
    [text.held, (row) => row.hold && wordFor(words.hold, row.hold)],
    [
      text.results,
      (row) =>
        row.results
          .map((one) => text.resultLine({ ...one, result: holdText.results[one.result] }))
          .join('; '),
    ],
    [text.affected, (row) => row.affectedBy.join(', ')],
    [text.lacks, (row) => lackingText(row.lacks)],
  ];
  return {
    head: columns.map(([name]) => name),
    plain: rows.map((row) => columns.map(([, cell]) => cell(row))),
  };
}

/** How an animal was received, and which pieces of it: 'Quarters: 2 × Haunch'. */
export function broughtText({ brought, pieces }: Pick<RecordRow, 'brought' | 'pieces'>): string {
  const counted = pieces.map(({ name, count }) => (count === 1 ? `1 ${name}` : `${count} × ${name}`));
  return withPieces(words.brought[brought], counted.join(', '));
}
