/** The office sees which stations are connected, and when one was last. */
import { afterEach, beforeEach, expect, it } from 'vitest';
import { freshFloor, type Floor } from './floor.ts';

let floor: Floor;
beforeEach(async () => void (floor = await freshFloor()));
afterEach(() => floor.desk.close());

const seen = async () => {
  const { stations } = await floor.call('stations.get', {});
  return stations.map(({ connected, lastSeen }) => [connected, lastSeen]);
};

it('is connected while it has a line, however many, and was last seen when the last one ended', async () => {
  const { secret } = await floor.pair('table');
  expect(await seen()).toEqual([[false, null]]);
  const told: unknown[] = [];
  floor.desk.onChanged(({ stale }) => told.push(stale?.asks));
  const [first, second] = [floor.door.watch(secret, () => 0), floor.door.watch(secret, () => 0)];
  expect(await seen()).toEqual([[true, null]]);
  first();
  first();
  expect(await seen()).toEqual([[true, null]]);
  floor.wait(60);
  second();
  const [[connected, lastSeen] = []] = await seen();
  expect([connected, lastSeen]).toEqual([false, expect.stringMatching(/^\d{4}-.*Z$/)]);
  expect(told).toEqual(Array(4).fill(['stations.get']));
});

it('is not connected once it is shut out, though its line ends later', async () => {
  const { secret, id } = await floor.pair('table');
  const stop = floor.door.watch(secret, () => 0);
  await floor.call('stations.pause', { id });
  expect((await seen())[0]?.[0]).toBe(false);
  stop();
  await floor.call('stations.resume', { id });
  floor.door.watch(secret, () => 0);
  expect(await seen()).toEqual([[true, null]]);
});

it('knows nothing of a secret that opens nothing', async () => {
  await floor.pair('table');
  floor.door.watch('no secret', () => 0)();
  expect(await seen()).toEqual([[false, null]]);
});
