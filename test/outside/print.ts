/** Prints the table of outside checks after a run: one row for each independent published result. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { listOf } from './nearness.ts';
import type { Row, Value } from './result.ts';

/** Of a long list. */
const MAX_SHOWN = 8;
const folder = process.env.OUTSIDE_ROWS ?? fileURLToPath(new URL('../../out/', import.meta.url));
const rows = JSON.parse(readFileSync(join(folder, 'outside.json'), 'utf8')) as Row[];
const results = rows.filter((row) => row.kind === 'result');
const copied = rows.filter((row) => row.kind === 'copied');

for (const area of new Set(results.map((row) => row.area))) {
  console.log(`\n${area}`);
  for (const row of results.filter((one) => one.area === area)) {
    console.log(`\n  ${row.name}`);
    console.log(`    source    ${row.source}${row.note ? ` (${row.note})` : ''}`);
    console.log(`    ${row.basis.padEnd(8)}  ${shown(row.expected)}`);
    console.log(`    ours      ${shown(row.got)}`);
    console.log(
      `    agrees    ${row.digits.toFixed(1).replace('.0', '')} digits in the worst place; asked: ${row.asked}`,
    );
    console.log(`    catches   ${row.mistake}`);
  }
}
if (copied.length > 0) {
  console.log(
    '\nFigures that the tool ships, read again in their source (shows that they were copied right, so none is counted)',
  );
  for (const row of copied) {
    console.log(`\n  ${row.name}`);
    console.log(`    source    ${row.source}`);
    console.log(`    printed   ${shown(row.expected)}`);
    console.log(`    ours      ${shown(row.got)}`);
  }
}
const stated = results.filter(({ basis }) => basis === 'stated').length;
console.log(
  `\n${results.length} independent published results: ${stated} with the expected figure in the source itself, ` +
    `${results.length - stated} computed from inputs in the source.`,
);

/** Enough digits to judge by, and the beginning of a long list; the digits were taken from all of it. */
function shown(value: Value): string {
  const list = listOf(value);
  const text = list
    .slice(0, MAX_SHOWN)
    .map((one) => String(Number(one.toPrecision(list.length === 1 ? 14 : 8))));
  return text.join('  ') + (list.length > MAX_SHOWN ? `  … ${list.length} values` : '');
}
