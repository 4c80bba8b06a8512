/**
 * How honest are the ranges? `node test/calibrate/run.ts [shops] [--markdown]` prints, for made-up shops of eight worlds,
 * how often the 50, 80 and 95 % ranges held a new animal, with the band in which an honest count falls 19 times in 20;
 * the same for the 9-in-10 range of a batch's fat and the 80 % range of a cooked batch's yield, and for each finished animal of the demo, foretold by a model that has learned all the others.
 * The kept table is all that `npm run --silent calibrate -- 400 --markdown > test/calibrate/RESULTS.md` prints.
 */
import {
  backTest,
  countBills,
  countTakeHome,
  hasRecipe,
  TOLD,
  type BackTested,
  type Counted,
} from './back-test.ts';
import { batchTable } from './batch.ts';
import { leaveOneOut, quotesHeld, withDemo, type Held } from './demo.ts';
import { binomialBand, binomialCounts, COUNTED, coverage, LEVELS } from './coverage.ts';
import { lossTable } from './loss.ts';
import { newKindTable, OTHERS } from './new-kind.ts';
import { madeOwnersTable, ownersTable } from './owners-table.ts';
import { totesTable } from './totes.ts';
import { WORLDS } from './world.ts';

const markdown = process.argv.includes('--markdown');
const shops = Number(process.argv.slice(2).find((word) => /^\d+$/.test(word)) ?? 160);
const WEIGHED = [0, 20, 150];
/** A batch takes far less time than an animal: more shops tell 90 from 88. */
const BATCH_SHOPS = 10;
/** So does a batch of sausage. */
const LOSS_SHOPS = 5;
/** Quotes tell 8 in 10. */
const QUOTED = 0.8;

const percent = (share: number): string => (100 * share).toFixed(1);
if (markdown)
  console.log(
    `# How honest the ranges are\n\nPrinted by \`npm run --silent calibrate -- ${shops} --markdown\` on ${new Date().toISOString().slice(0, 10)}; nothing here is written by hand.`,
  );

part(
  'Yields',
  'Made-up shops (`world.ts`): each learns so many weighed animals and predicts one more. How often its ranges held.',
);
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

part(
  'Fat of a batch',
  'How often the 9-in-10 range held, by animals in the batch and fat tests before it (`batch-world.ts`). Where the mean of a shop lies 2 prior SDs off, no range is right before the first test.',
);
const batchRanges = batchTable(shops * BATCH_SHOPS);
print(batchRanges.titles, batchRanges.rows);
console.log(`\n${batchRanges.note}`);

part(
  'Yield of a cooked or dried batch',
  'How often the 80 % range held the next batch of a product, by batches of it weighed before (`loss-world.ts`); the shop has weighed nine of three other products. Before the first few no range can be right where the assumption about its kind is wrong.',
);
const losses = lossTable(shops * LOSS_SHOPS);
print(losses.titles, losses.rows);
console.log(`\n${losses.note}`);

part(
  'A kind that is new to a shop',
  `The shop has weighed ${OTHERS} other animals, and the true mean of the new kind is so many of its profile's standard deviations off. Widths in points of take-home. Beside the model stand a normal prior that no animal can contradict (\`normal-prior.ts\`) and a running mean of the new kind alone. Before the first animal no range can be right.`,
);
const newKind = newKindTable(shops, mark);
print(newKind.titles, newKind.rows);

part(
  'A new shop of an owner',
  'Its owner has other shops, each with 40 to 300 animals weighed; the new one has weighed so many (`owners.ts`). How often the 80 % ranges held the take-home of the next animal, in brackets over all splits, and the width beside that of the same shop without siblings, in points.',
);
const owners = ownersTable(Math.ceil(shops / 2));
print(owners.titles, owners.rows);
console.log(`\n${owners.note}`);

part(
  'Fat and losses of a new shop of an owner',
  'The same for the fat of a batch of four animals, where siblings have tested 10 to 60 batches, and for what a batch of snack sticks keeps, where they have made 10 to 60 of each of four products (`owners-made.ts`). With a single sibling nothing tells how alike shops are: ranges hold more where they are alike and less where they are not.',
);
const madeOwners = madeOwnersTable(shops * 2);
print(madeOwners.titles, madeOwners.rows);
console.log(`\n${madeOwners.note}`);

part(
  'Totes never weighed',
  'Shops whose damage is zero or gamma, with odd animals, coarse readings and totes never weighed.',
);
const totes = totesTable(shops, mark);
print(totes.titles, totes.rows);

part(
  'The demo, leave-one-out',
  "How many animals took home what was predicted (the band of an honest count). The demo's animals are drawn from the same kind of world that the model believes in, with a shop, cutters and slips of its own: this shows that learning and predicting fit together down to the book, not that real shops are like that.",
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

part(
  'The demo, quoted on the day each animal came',
  'From what was known then: how often the 80 % range held (* outside what is honest). Bills count where the quote was a range.',
);
const groups: [string, BackTested[]][] = [
  ['all', tested],
  ...Map.groupBy(tested, ({ season }) => String(season)),
  ...Map.groupBy(tested, ({ species }) => species),
  ['with a recipe', tested.filter(hasRecipe)],
  ['without one', tested.filter((one) => !hasRecipe(one))],
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

/** Begins one of the tables. */
function part(title: string, about: string): void {
  console.log(markdown ? `\n## ${title}\n\n${about}\n` : `\n${title}. ${about}\n`);
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
