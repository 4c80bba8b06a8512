/** The line follows the shop's switch: nothing listens before, and nothing after. */
import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { followStationSettings } from '../../../src/bridge/stations/follow.ts';
import { echoDoor, type EchoDoor } from './echo-door.ts';
import { freePort } from './open-line.ts';

const ADDRESS = '127.0.0.1';
let door: EchoDoor;
let book: { path: string; shop: string } | null;
let port: number;
let stop: () => Promise<void>;
beforeEach(async () => {
  door = echoDoor();
  book = newBook();
  port = await freePort();
  stop = followStationSettings({ door, book: () => book, windowFolder: '', every: 50 });
});
afterEach(() => stop());

function newBook() {
  const path = join(mkdtempSync(join(tmpdir(), 'gambrel-follow-')), 'shop.gambrel');
  writeFileSync(path, '');
  return { path, shop: 'Oak Ridge' };
}
const keysOf = ({ path }: { path: string }) => path.replace('.gambrel', ' stations.json');
const last = () => door.states.at(-1);

function isListening(at = port): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(at, ADDRESS, () => {
      socket.destroy();
      resolve(true);
    });
    socket.on('error', () => resolve(false));
  });
}

it('listens from being switched on until it is switched off, and makes its keys then', async () => {
  await expect.poll(() => door.states).toEqual([{ state: 'off' }]);
  door.set({ port, address: ADDRESS });
  expect(await isListening()).toBe(false);
  expect(existsSync(keysOf(book ?? newBook()))).toBe(false);
  door.set({ on: true });
  await expect.poll(last).toMatchObject({ state: 'open', addresses: [ADDRESS], port, isNew: true });
  expect(await isListening()).toBe(true);
  expect(existsSync(keysOf(book ?? newBook()))).toBe(true);
  door.set({ on: false });
  await expect.poll(last).toEqual({ state: 'off' });
  expect(await isListening()).toBe(false);
});

it('says that another program has the port, takes no other, and goes on when it is free', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(port, ADDRESS, resolve));
  door.set({ on: true, port, address: ADDRESS });
  await expect.poll(last).toEqual({
    state: 'failed',
    problem: { kind: 'conflict', code: 'line.port-taken', with: { port } },
  });
  await new Promise((resolve) => other.close(resolve));
  await expect.poll(last).toMatchObject({ state: 'open', port });
});

it('says that this computer is not on the chosen network', async () => {
  door.set({ on: true, port, address: '198.51.100.7' });
  await expect.poll(last).toMatchObject({ state: 'failed', problem: { code: 'line.no-address' } });
});

it('opens another line for another book or port', async () => {
  door.set({ on: true, port, address: ADDRESS });
  await expect.poll(last).toMatchObject({ state: 'open' });
  const first = last();
  book = newBook();
  door.set({});
  await expect.poll(last).not.toEqual(first);
  expect(last()).toMatchObject({ state: 'open', isNew: true });
  const former = port;
  port = await freePort();
  door.set({ port });
  await expect.poll(last).toMatchObject({ state: 'open', port });
  expect([await isListening(former), await isListening()]).toEqual([false, true]);
  book = null;
  door.set({});
  await expect.poll(last).toEqual({ state: 'off' });
});

it('ends with the desk', async () => {
  door.set({ on: true, port, address: ADDRESS });
  await expect.poll(last).toMatchObject({ state: 'open' });
  await stop();
  expect(await isListening()).toBe(false);
});
