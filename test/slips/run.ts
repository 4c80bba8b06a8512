/**
 * What becomes of slips, in made-up shops at a real desk: `npm run slips -- [animals] [seed] [--markdown]` prints how often each slip
 * is asked about as it is entered, named by the balance or missed, what was offered, how often right weights are questioned,
 * and the best that any test could do on the same weights: one that knows the shop, and one that knows what is published. RESULTS.md holds the table of one run.
 *
 * For a part of it: `--missing 0,20` (percent), `--learned 0`, `--slips 'none,wrong animal'`; `--desk` leaves the best possible tests
 * out. The animals stay the same.
 */
import { parseArgs } from 'node:util';
import { SLIPS } from './making-slips.ts';
import { simulate } from './simulate.ts';
import { slipsTable } from './table.ts';

const SHOPS = { learned: 4, fresh: 12 };
/** The kept table's; thresholds are set with others. */
const SEED = 11;
const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    markdown: { type: 'boolean', default: false },
    desk: { type: 'boolean', default: false },
    missing: { type: 'string' },
    learned: { type: 'string' },
    slips: { type: 'string' },
  },
});
const [animals = 60, seed = SEED] = positionals.map(Number);
const listed = values.slips?.split(',');
const unknown = listed?.filter((name) => name !== 'none' && !SLIPS.some((slip) => slip === name)) ?? [];
if (unknown.length > 0) throw new Error(`no such slip: ${unknown.join()}; there are none, ${SLIPS.join()}`);
const numbersOf = (text: string): number[] => text.split(',').map(Number);

const cells = await simulate({
  shops: SHOPS,
  animals,
  rightTimes: 5,
  seed,
  ...(values.missing && { missing: numbersOf(values.missing).map((percent) => percent / 100) }),
  ...(values.learned && { taught: numbersOf(values.learned) }),
  ...(listed && { slips: [null, ...SLIPS].filter((slip) => listed.includes(slip ?? 'none')) }),
  best: !values.desk,
});
console.log(slipsTable(cells, values.markdown));
