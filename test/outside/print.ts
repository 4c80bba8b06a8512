/** Prints the table of outside checks after a run, and merges its rows into one file, `outside.json`. */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Row, Value } from './row.ts';

const tests = fileURLToPath(new URL('.', import.meta.url));
const folder = process.env.OUTSIDE_ROWS ?? fileURLToPath(new URL('../../out/outside/', import.meta.url));
const rows = readRows();
if (rows.length === 0) {
  console.error(`No outside check has left a row in ${folder}; run the tests first.`);
  process.exit(1);
}
writeFileSync(join(folder, '..', 'outside.json'), JSON.stringify(rows, null, 1));

for (const file of new Set(rows.map((row) => row.file))) {
  console.log(`\n${file}`);
  const own = rows.filter((row) => row.file === file);
  const cells = [
    ['check', 'expected', 'got', 'digits', 'asked'],
    ...own.map((row) => [
      row.name,
      shown(row.expected),
      shown(row.got),
      row.digits.toFixed(1).replace('.0', ''),
      row.asked,
    ]),
  ];
  const widths = cells[0]?.map((_, column) => Math.max(...cells.map((line) => line[column]?.length ?? 0)));
  let source = '';
  cells.forEach((line, at) => {
    const from = own[at - 1]?.source ?? source;
    if (from !== source) console.log(`  [${from}]`);
    source = from;
    console.log(`    ${line.map((cell, column) => cell.padEnd(widths?.[column] ?? 0)).join('  ')}`.trimEnd());
  });
}
console.log(`\n${rows.length} checks against published values.`);

/** Rows of every test file that still exists; what a removed test left behind is passed over. */
function readRows(): Row[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.endsWith('.test.ts.json') && existsSync(join(tests, name.slice(0, -5))))
    .sort()
    .flatMap((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as Row[]);
}

/** Enough digits to judge by; the digits column was taken from the full value. */
function shown(value: Value): string {
  const text = (one: number, digits: number) => String(Number(one.toPrecision(digits)));
  return typeof value === 'number' ? text(value, 14) : value.map((one) => text(one, 8)).join(' ');
}
