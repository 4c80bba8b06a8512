/** While stations are on, a desk at rest learns before the first weight comes; one machine alone learns when it is asked. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { startUpkeep } from '../../../src/desk/upkeep.ts';
import type { Session } from '../../../src/desk/session/session.ts';
import { freshFloor, type Floor } from './floor.ts';

let floor: Floor;
beforeEach(async () => {
  floor = await freshFloor();
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
});
afterEach(() => {
  vi.useRealTimers();
  floor.desk.close();
});

/** How often upkeep asks for what earlier animals teach, in ten looks. */
function learnedInTenLooks(): number {
  const open = floor.desk.session();
  if (!open) throw new Error('No book is open.');
  let times = 0;
  const session = Object.create(open, { yields: { get: () => (times += 1) } }) as Session;
  const door = { session, bookPath: floor.bookPath } as unknown as Parameters<typeof startUpkeep>[0];
  const quiet = {
    announce: () => undefined,
    backUp: async () => undefined,
    isWriting: () => false,
    announceLedger: () => undefined,
    teaching: { lesson: async () => null, write: async () => undefined },
  };
  const stop = startUpkeep(door, { backUpEvery: 1e9, lookEvery: 2_000 }, quiet, (error) => {
    throw error;
  });
  vi.advanceTimersByTime(20_000);
  stop();
  return times;
}

it('learns once while stations are on', () => {
  expect(learnedInTenLooks()).toBe(1);
});

it('does not while they are off', async () => {
  await floor.call('stations.setUp', { on: false, address: '192.168.77.1', pins: false, by: 'MK' });
  expect(learnedInTenLooks()).toBe(0);
});
