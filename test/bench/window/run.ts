/**
 * `npm run window`: what a hand waits for in the window, with the processor slowed four times, on the book of twenty large seasons.
 * `-- --seasons 1 --rounds 3 --only places --act rail` for a try; `--slow MS` blocks the page at each key and `--leak` keeps each page that was
 * left, so that the bars are seen to miss. Only a whole run writes RESULTS.md. Nothing here is a test: a busy machine is no defect.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { reportOf } from '../report.ts';
import { emptyActs, openEmptyPage } from './empty-page.ts';
import { grows } from './growth.ts';
import type { Act, Hand } from './hand.ts';
import { openLargeShop } from './large-shop.ts';
import { heldByHour, type Held } from './memory.ts';
import { introduction } from './introduction.ts';
import { memoryTable, misses, tableOf, type Measured } from './results.ts';
import { typingActs } from './typing.ts';
import { placeActs, recordActs, seasonActs } from './visits.ts';

const { values: asked } = parseArgs({
  options: {
    seasons: { type: 'string', default: '20' },
    rounds: { type: 'string', default: '9' },
    throttle: { type: 'string', default: '4' },
    hours: { type: 'string', default: '7' },
    slow: { type: 'string', default: '0' },
    leak: { type: 'boolean', default: false },
    only: { type: 'string' },
    act: { type: 'string', default: '' },
  },
});
const faults = { slowMs: Number(asked.slow), leaks: asked.leak };
const [seasons, slowedBy] = [Number(asked.seasons), Number(asked.throttle)];
const wants = (part: string): boolean => asked.only === undefined || asked.only === part;
const measured: Measured[] = [];
let held: Held[] | null = null;

/** The first round of each is not counted: it fetches scripts and compiles code. */
async function measure(hand: Hand, acts: readonly Act[]): Promise<void> {
  for (const act of acts.filter(({ name }) => name.includes(asked.act))) {
    const waits = [];
    for (let round = 0; round <= (act.rounds ?? Number(asked.rounds)); round++)
      waits.push(await hand.wait(act, round));
    const one = { act, waits: waits.slice(1) };
    measured.push(one);
    console.error(`${act.name}: ${one.waits.map(({ answerMs }) => answerMs.toFixed(0)).join(' ')} ms`);
  }
}

if (asked.only !== 'memory') {
  const shop = await openLargeShop(seasons, slowedBy, faults);
  try {
    if (wants('empty')) {
      const empty = await openEmptyPage(shop.browser, slowedBy, faults);
      await measure(empty, emptyActs(empty));
      await empty.page.close();
    }
    if (wants('typing')) await measure(shop.hand, await typingActs(shop));
    if (wants('places')) await measure(shop.hand, await placeActs(shop));
    if (wants('season')) await measure(shop.hand, await seasonActs(shop));
    if (wants('records')) await measure(shop.hand, recordActs(shop));
  } finally {
    await shop.close();
  }
}
if (wants('memory')) held = await heldByHour(Number(asked.hours), faults);

const missed = measured.filter(misses).map(({ act }) => act.name);
const report = [
  introduction({
    ...reportOf([], {}),
    seasons,
    slowedBy,
    rounds: Number(asked.rounds),
    slowMs: faults.slowMs,
  }),
  ...(measured.length > 0 ? [tableOf(measured)] : []),
  ...(held ? ['## What the window holds', memoryTable(held)] : []),
  missed.length === 0
    ? 'Every bar holds.'
    : `${missed.length} of ${measured.length} miss their bar: ${missed.join('; ')}.`,
].join('\n\n');
console.log(report);
if (asked.only === undefined && asked.act === '' && faults.slowMs === 0 && !faults.leaks)
  writeFileSync(new URL('RESULTS.md', import.meta.url), `${report}\n`);
process.exitCode = missed.length === 0 && !(held && grows(held)) ? 0 : 1;
