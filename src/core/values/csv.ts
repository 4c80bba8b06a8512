/** Writes comma-separated text by RFC 4180, safe to open in a spreadsheet. */

/**
 * The start of a formula in a spreadsheet, perhaps after apostrophes, perhaps in full-width signs. An apostrophe is
 * prefixed there, so that nothing is executed. It is also prefixed after a semicolon, tab or line break, because a
 * spreadsheet of a country that separates columns by semicolons splits our cells there. Existing apostrophes are
 * included so that `unescapeFormulas` restores the original text exactly.
 */
const FORMULA = /(?<=^|[;\t\r\n])(?='*[=+\-@\t\r＝＋－＠])/g;
const SHIELD = /(?<=^|[;\t\r\n])'(?='*[=+\-@\t\r＝＋－＠])/g;

export type Cell = string | number | null;

/**
 * A table as comma-separated text: CRLF between rows, fields with a comma, semicolon, quote or line break in quotes
 * (RFC 4180). Null is an empty field; numbers are written in full with a decimal point.
 * @example toCsv(['ticket', 'share'], [['26-0147', 0.41]]) // 'ticket,share\r\n26-0147,0.41\r\n'
 */
export function toCsv(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [head, ...rows].map(csvLine).join('');
}

/** One row with its line end. @example csvLine(['a,b', '=1+1', null]) // '"a,b",\'=1+1,\r\n' */
export function csvLine(row: readonly Cell[]): string {
  return `${row.map(field).join(',')}\r\n`;
}

/** A text with an apostrophe before each formula that a spreadsheet would run. @example shielded('=1+1') // "'=1+1" */
export function shielded(value: string): string {
  return value.replace(FORMULA, "'");
}

/**
 * Restores a cell's original text: removes one apostrophe in front of each formula. @example unescapeFormulas("'=1+1") //
 * '=1+1'
 */
export function unescapeFormulas(cell: string): string {
  return cell.replace(SHIELD, '');
}

function field(value: Cell): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = shielded(value);
  return /[",;\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
