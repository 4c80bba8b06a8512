/** Summarising a season takes a moment, not a second: upkeep does it while somebody works. */
import { expect, it } from 'vitest';
import { SPECIES } from '../../../src/desk/supplied/resources.ts';
import { summariseAnimal, summariseSeason } from '../../../src/desk/learning/season-summary.ts';
import { cut, freshDesk, inBook, takeIn } from '../fresh-desk.ts';

it('fits the published figures of a kind once, not for every animal of the season', async () => {
  const shop = await freshDesk();
  const id = await takeIn(shop);
  await cut(shop, id, { 'whole cuts': '120', trim: '80', 'fat saved': '10', sinew: '5', bone: '80' });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  const [row] = inBook(shop, ({ sums }) => sums.finished(2026));
  if (!row) throw new Error('no finished animal');
  const season = Array.from({ length: 20_000 }, () => row);
  const started = process.threadCpuUsage();
  const taught = summariseSeason(season.map((one) => summariseAnimal(one, SPECIES)));
  const { user, system } = process.threadCpuUsage(started);
  expect(taught.leftOut).toBe(0);
  expect(Object.keys(taught.shares)).not.toEqual([]);
  // Three seconds and more before, a third of one now.
  expect((user + system) / 1000).toBeLessThan(1500);
});
