/**
 * Replays an opening day in a real window at a person's pace and prints the time per animal, and the keys of an intake.
 * `npm run opening-day -- --animals 100 --pace 90`: how many deer, and milliseconds between two keys.
 */
import { parseArgs } from 'node:util';
import { openShop } from './e2e/shop-window.ts';
import {
  costLine,
  NEW_HUNTER,
  OWN_CUTS,
  RETURNING,
  takeInNew,
  takeInReturning,
} from './replay/intake-keys.ts';
import { timesTable } from './replay/stopwatch.ts';
import { inventVisitors } from './replay/visitors.ts';
import { deerOnly, openingTable, replayInWindow } from './replay/window-day.ts';

const { values } = parseArgs({
  options: { animals: { type: 'string', default: '100' }, pace: { type: 'string', default: '90' } },
});
const [animals, pace] = [Number(values.animals), Number(values.pace)];
const visitors = deerOnly(inventVisitors(animals * 3, 1)).slice(0, animals);
const shop = await openShop(pace);
// Quick ones, all of them: the first of a season would be weighed in every part.
await shop.call('shop.saveSettings', { changes: { detailEvery: 1000 } });
await shop.call('intake.takeIn', {
  hunter: { name: 'The first of the season' }, species: 'mule-deer', brought: 'skinned', sex: 'unknown', age: 'unknown',
}); // prettier-ignore
try {
  const day = await replayInWindow(shop, visitors);
  console.log(`${day.tickets.length} deer typed at ${pace} ms a key`);
  console.log([...timesTable(day.watch, 's'), openingTable(day.opened)].join('\n'));
  await shop.keys.goTo('intake', 2);
  console.log(
    costLine('intake, new hunter with a cut sheet of his own', await takeInNew(shop, NEW_HUNTER, OWN_CUTS)),
  );
  console.log(
    costLine('intake, returning hunter, same as last time', await takeInReturning(shop, RETURNING)),
  );
  if (shop.complaints.length > 0) throw new Error(`The window complained: ${shop.complaints.join(' | ')}`);
} finally {
  await shop.close();
}
