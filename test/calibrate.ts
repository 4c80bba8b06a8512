/**
 * How honest are the ranges? `node test/calibrate.ts [shops] [--markdown]` prints, for made-up shops of eight worlds,
 * how often the 50, 80 and 95 % ranges held a new animal, with the band in which an honest count falls 19 times in 20;
 * the same for the 9-in-10 range of a batch's fat, and for each finished animal of the demo, foretold by a model that has learned all the others.
 */
import { backTest, countBills, countTakeHome, TOLD, type BackTested, type Counted } from './back-test.ts';
import { batchTable } from './calibrate-batch.ts';
import { leaveOneOut, quotesHeld, withDemo, type Held } from './calibrate-demo.ts';
import { binomialBand, binomialCounts, COUNTED, coverage, LEVELS } from './calibrate-run.ts';
import { newKindTable, OTHERS } from './calibrate-new-kind.ts';
import { totesTable } from './calibrate-totes.ts';
import { WORLDS } from './calibrate-world.ts';

const markdown = process.argv.includes('--markdown');
const shops = Number(process.argv.slice(2).find((word) => /^\d+$/.test(word)) ?? 160);
const WEIGHED = [0, 20, 150];
/** A batch takes far less time than an animal: more shops tell 90 from 88. */
const BATCH_SHOPS = 10;
/** Quotes tell 8 in 10. */
const QUOTED = 0.8;

const percent = (share: number): string => (100 * share).toFixed(1);
const titles = [
  'world',
  'weighed',
  'shops',
  ...LEVELS.map((level) => `take-home ${percent(level)}`),
  ...LEVELS.map((level) => `all parts ${percent(level)}`),
];
const rows: string[][] = [];
for (const world of WORLDS)
  for (const weighed of WEIGHED) {
    // A seed of its own for each row: one odd lot of shops must not colour the whole table.
    const { inside } = coverage(world, weighed, shops, rows.length + 1);
    const takeHome = LEVELS.map((level, i) => mark((inside.takeHome?.[i] ?? 0) / shops, level));
    const all = LEVELS.map((_, i) =>
      percent(
        COUNTED.reduce((total, part) => total + (inside[part]?.[i] ?? 0), 0) / (shops * COUNTED.length),
      ),
    );
    rows.push([world.name, String(weighed), String(shops), ...takeHome, ...all]);
  }

print(titles, rows);
const bands = LEVELS.map((level) => `${percent(level)} ± ${percent(binomialBand(level, shops))}`);
console.log(`\nAn honest count of ${shops} shops falls within ${bands.join(', ')}; * marks those outside.`);

console.log(
  '\nFat of a batch: how often the 9-in-10 range held, by animals in the batch and fat tests before it.\n',
);
const batchRanges = batchTable(shops * BATCH_SHOPS);
print(batchRanges.titles, batchRanges.rows);
console.log(`\n${batchRanges.note}`);

console.log(
  `\nA kind that is new to a shop with ${OTHERS} other animals, its true mean so many of its profile's standard deviations off.`,
  'Widths in points of take-home.\n',
);
const newKind = newKindTable(shops, mark);
print(newKind.titles, newKind.rows);

console.log(
  '\nShops whose damage is zero or gamma, with odd animals, coarse readings and totes never weighed.\n',
);
const totes = totesTable(shops, mark);
print(totes.titles, totes.rows);

console.log(
  '\nThe demo, leave-one-out: how many animals took home what was foretold (the band of an honest count).\n',
);
const { held, quotes, tested } = await withDemo((book) => ({
  held: leaveOneOut(book),
  quotes: quotesHeld(book),
  tested: backTest(book),
}));
print(['species', 'animals', ...LEVELS.map((level) => `held at ${percent(level)}`)], held.map(heldRow));
const { low, high } = binomialCounts(QUOTED, quotes.animals);
console.log(
  `\nOf ${quotes.animals} quotes whose animal came and is finished, ${quotes.held[0]} held (honest: ${low}–${high} of them); ` +
    'the weight that the hunter guessed is part of that.',
);

console.log(
  '\nThe demo, quoted on the day each animal came from what was known then: how often the 80 % range held (* outside',
  'what is honest). Bills count where the quote was a range.\n',
);
const groups: [string, BackTested[]][] = [
  ['all', tested],
  ...Map.groupBy(tested, ({ season }) => String(season)),
  ...Map.groupBy(tested, ({ species }) => species),
];
print(
  ['of', ...TOLD.flatMap((told) => [`take-home, told ${told}`, `bill, told ${told}`])],
  groups.map(([name, of]) => [
    name,
    ...TOLD.flatMap((told) => [countedCell(countTakeHome(of, told)), countedCell(countBills(of, told))]),
  ]),
);

function countedCell({ n, inside, band: { low, high } }: Counted): string {
  return `${inside}/${n}${inside < low || inside > high ? '*' : ''} = ${percent(inside / n)} % (${low}–${high})`;
}

function heldRow({ name, animals, held }: Held): string[] {
  const cells = LEVELS.map((level, i) => {
    const count = held[i] ?? 0;
    const { low, high } = binomialCounts(level, animals);
    return `${count}${count < low || count > high ? '*' : ''} = ${percent(count / animals)} % (${low}–${high})`;
  });
  return [name, String(animals), ...cells];
}

/** Aligned for a screen, or as a Markdown table. */
function print(titles: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = titles.map((title, i) =>
    Math.max(title.length, ...rows.map((row) => (row[i] ?? '').length)),
  );
  const line = (cells: readonly string[]): string =>
    markdown
      ? `| ${cells.join(' | ')} |`
      : cells
          .map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
          .join('  ');
  console.log(line(titles));
  if (markdown) console.log(line(titles.map((_, i) => (i === 0 ? '---' : '---:'))));
  for (const row of rows) console.log(line(row));
}

/** One animal a shop: the counts of take-home are binomial. Those of all parts hang together and get no mark. */
function mark(share: number, level: number): string {
  return percent(share) + (Math.abs(share - level) > binomialBand(level, shops) ? '*' : '');
}
