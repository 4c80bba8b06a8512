/** The computer stays awake while stations are on. */
import { expect, it } from 'vitest';
import { freePort } from '../bridge/stations/open-line.ts';
import { bridgeOf, opened, windowOf } from './running.ts';

async function working() {
  const shell = await opened();
  const { call } = await bridgeOf(shell);
  await call('shop.setUp', { shopName: 'Ridge', unit: 'lb' });
  const port = await freePort();
  const turn = async (on: boolean) => {
    const answer = await call('stations.setUp', { on, address: '127.0.0.1', port, pins: false, by: 'MK' });
    expect(answer.ok).toBe(true);
  };
  return { shell, turn, blocks: () => [...shell.blockers.values()] };
}

it('is kept awake from switching on to switching off, and its screen may go dark', async () => {
  const { turn, blocks } = await working();
  expect(blocks()).toEqual([]);
  await turn(true);
  await expect.poll(blocks, { timeout: 10_000 }).toEqual(['prevent-app-suspension']);
  await turn(false);
  await expect.poll(blocks, { timeout: 10_000 }).toEqual([]);
}, 60_000);

it('sleeps again when the desk ends, and not once another one has started', async () => {
  const { shell, turn, blocks } = await working();
  await turn(true);
  await expect.poll(blocks, { timeout: 10_000 }).toHaveLength(1);
  shell.desks[0]?.crash();
  await expect.poll(() => shell.desks.length, { timeout: 20_000 }).toBe(2);
  await expect.poll(() => [...shell.blockers.keys()], { timeout: 20_000 }).toEqual([2]);
  windowOf(shell).close();
  await expect.poll(blocks, { timeout: 20_000 }).toEqual([]);
}, 60_000);
