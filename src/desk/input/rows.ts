/** Iterates over the rows of a table, with any line ends and stray quotes. */
import { CsvError, parse } from 'csv-parse/sync';
import { unescapeFormulas } from '../../core/values/csv.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import type { Separator } from '../../core/sheet/text.ts';

export interface SheetRow {
  /** As a spreadsheet counts, from 1. */
  number: number;
  cells: string[];
}

/** More columns than any shop's table; an unclosed quote makes such rows. */
export const MAX_COLUMNS = 300;
const MAX_ROW_LETTERS = 200_000;
const MAX_ROWS = 200_000;

/** The first `most` rows. @throws ValidationError as `eachRow` */
export function rowsOf(text: string, separator: Separator, most: number): SheetRow[] {
  const rows: SheetRow[] = [];
  eachRow(text, separator, (row) => rows.push(row), most);
  return rows;
}

/**
 * Streams every non-empty row.
 * @throws ValidationError `sheet.quote`, `sheet.row-too-long`, `sheet.too-many-rows`, each with its row
 */
export function eachRow(
  text: string,
  separator: Separator,
  take: (row: SheetRow) => void,
  most = Infinity,
): void {
  let number = 0;
  try {
    parse(text, {
      delimiter: separator,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_quotes: true,
      relax_column_count: true,
      max_record_size: MAX_ROW_LETTERS,
      ...(most < Infinity && { to: most }),
      on_record: (cells: string[]) => {
        number += 1;
        if (number > MAX_ROWS)
          throw new ValidationError('sheet.too-many-rows', undefined, { row: number, most: MAX_ROWS });
        if (cells.length > MAX_COLUMNS)
          throw new ValidationError('sheet.row-too-long', undefined, { row: number });
        if (cells.some((cell) => cell.trim() !== '')) take({ number, cells: cells.map(unescapeFormulas) });
        return null;
      },
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const code = error.code === 'CSV_MAX_RECORD_SIZE' ? 'sheet.row-too-long' : 'sheet.quote';
    throw new ValidationError(code, undefined, { row: number + 1 });
  }
}
