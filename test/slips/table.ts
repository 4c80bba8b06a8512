/** The table of what became of slips. */
import { bestThresholds, LEVEL, tally, type Cell, type Tally } from './simulate.ts';

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
  ['best by what is published', ({ bestFresh }) => percent(bestFresh)],
  ['offered', ({ offered }) => percent(offered)],
  ['of these right', ({ offeredRight }) => percent(offeredRight)],
  ['right questioned per 100', ({ questioned }) => questioned.toFixed(1)],
];

function percent(share: number | null): string {
  return share === null ? '–' : (100 * share).toFixed(1);
}

/** One row for each kind of shop and slip; in columns, or as markdown. */
export function slipsTable(cells: readonly Cell[], markdown: boolean): string {
  const rows = cells.map((cell) => {
    const told = tally(cell, bestThresholds(cells, cell.missing));
    return COLUMNS.map(([, write]) => write(told, cell));
  });
  const titles = COLUMNS.map(([title]) => title);
  const widths = titles.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]?.length ?? 0)));
  const lines = markdown
    ? [titles, titles.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`)
    : [titles, ...rows].map((row) => row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('  '));
  return [
    ...lines,
    '',
    `In percent of the animals. All tests are allowed ${100 * LEVEL} % false alarms. "Only right named": the slip was missed and another weight accused.`,
  ].join('\n');
}
