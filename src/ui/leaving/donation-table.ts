import type { DonationsView } from '../../bridge/contract.ts';
import { decimalText } from '../../core/values/money.ts';
import { fromGrams } from '../../core/values/units.ts';
import type { Format } from '../texts/format.ts';
import { text } from '../../words/compiled/window/leaving.ts';

/** Donations as a spreadsheet: one row each, dates as YYYY-MM-DD, money as decimals of its currency. */
export function donationTable(
  { rows }: DonationsView,
  { unit }: Pick<Format, 'unit'>,
): { head: string[]; plain: (string | number)[][] } {
  return {
    head: [
      text.day,
      text.ticket,
      text.hunter,
      text.program,
      text.confirmation,
      text.grams({ unit }),
      text.owed,
      text.currency,
      text.why,
    ],
    plain: rows.map((row) => [
      row.on,
      row.ticket,
      row.hunter,
      row.program,
      row.confirmation,
      Number(fromGrams(row.grams, unit).toFixed(2)),
      decimalText(row.owesMinor, row.currency),
      row.currency,
      text.whys[row.why],
    ]),
  };
}
