/**
 * What becomes of slips, in made-up shops at a real desk: `npm run slips -- [animals] [seed] [--markdown]` prints how often each slip
 * is asked about as it is entered, named by the balance or missed, what was offered, how often right weights are questioned,
 * and the best that any test could do on the same weights: one that knows the shop, and one that knows what is published. RESULTS.md holds the table of one run.
 */
import { simulate } from './simulate.ts';
import { slipsTable } from './table.ts';

const SHOPS = { learned: 4, fresh: 12 };
/** The kept table's; thresholds are set with others. */
const SEED = 11;
const numbers = process.argv
  .slice(2)
  .filter((word) => /^\d+$/.test(word))
  .map(Number);
const [animals = 60, seed = SEED] = numbers;
const markdown = process.argv.includes('--markdown');

const cells = await simulate({ shops: SHOPS, animals, rightTimes: 5, seed });
console.log(slipsTable(cells, markdown));
