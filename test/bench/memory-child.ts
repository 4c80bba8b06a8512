/** A desk alone in a process of its own: goes through the places and says how much memory it then holds, in MB. */
import { QUOTE } from './desk-work.ts';
import { deskOn } from './open-desk.ts';

const desk = await deskOn(Number(process.argv[2]));
await desk.call('shop.get', {});
await desk.call('rail.get', {});
await desk.call('quotes.calculate', QUOTE);
await desk.call('hunters.find', { text: 'whit' });
await desk.call('season.yields', {});
await desk.call('season.pounds', {});
await desk.call('season.fat', {});
await desk.call('season.check', {});
await desk.call('season.flow', {});
await desk.call('costing.get', {});
console.log(process.memoryUsage.rss() / 2 ** 20);
desk.close();
