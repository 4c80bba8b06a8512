/**
 * What becomes of slips, in made-up shops at a real desk: `npm run slips -- [animals] [--markdown]` prints how often each slip
 * is asked about as it is entered, named by the balance or missed, what was offered, how often right weights are questioned,
 * and the best that any test could do on the same weights. RESULTS.md holds the table of one run.
 */
import { bestThreshold, LEVEL, simulate, tally, type Cell, type Tally } from './simulate.ts';

const SHOPS = 4;
const numbers = process.argv
  .slice(2)
  .filter((word) => /^\d+$/.test(word))
  .map(Number);
const animals = numbers[0] ?? 15;
const markdown = process.argv.includes('--markdown');

const COLUMNS: readonly [string, (tally: Tally, cell: Cell) => string][] = [
  ['missing a tote', (_, { missing }) => `${100 * missing} %`],
  ['learned', (_, { taught }) => `${taught}`],
  ['slip', (_, { slip }) => slip ?? 'none'],
  ['animals', ({ animals: count }) => `${count}`],
  ['asked', ({ asked }) => percent(asked)],
  ['named', ({ named }) => percent(named)],
  ['does not fit', ({ unclear }) => percent(unclear)],
  ['only right named', ({ wrongNamed }) => percent(wrongNamed)],
  ['silent', ({ silent }) => percent(silent)],
  ['found', ({ found }) => percent(found)],
  ['best test', ({ best }) => percent(best)],
  ['offered', ({ offered }) => percent(offered)],
  ['of these right', ({ offeredRight }) => percent(offeredRight)],
  ['right questioned per 100', ({ questioned }) => questioned.toFixed(1)],
];

function percent(share: number | null): string {
  return share === null ? '–' : (100 * share).toFixed(1);
}

const cells = await simulate({ shops: SHOPS, animals, rightTimes: 4, seed: 7 });
const rows = cells.map((cell) => {
  const told = tally(cell, bestThreshold(cells, cell.missing));
  return COLUMNS.map(([, write]) => write(told, cell));
});
const titles = COLUMNS.map(([title]) => title);
if (markdown) {
  console.log(`| ${titles.join(' | ')} |\n|${titles.map(() => ' --- |').join('')}`);
  for (const row of rows) console.log(`| ${row.join(' | ')} |`);
} else {
  const widths = titles.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]?.length ?? 0)));
  for (const row of [titles, ...rows])
    console.log(row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('  '));
}
console.log(
  `\nIn percent of the animals. Both tests are allowed ${100 * LEVEL} % false alarms. "Only right named": the slip was missed and another weight accused.`,
);
