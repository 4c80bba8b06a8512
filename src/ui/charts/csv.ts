/** Begins a formula in a spreadsheet: such a text is quoted with an apostrophe, so that nothing runs. */
const FORMULA = /^[=+\-@\t\r]/;

/**
 * A table as comma-separated text: CRLF between rows, fields with a comma, quote or line break in quotes
 * (RFC 4180). Null is an empty field; numbers are written in full with a decimal point.
 * @example toCsv(['ticket', 'share'], [['26-0147', 0.41]]) // 'ticket,share\r\n26-0147,0.41\r\n'
 */
export function toCsv(
  head: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
): string {
  return [head, ...rows].map((row) => `${row.map(field).join(',')}\r\n`).join('');
}

function field(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const safe = FORMULA.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
