/** The shop sees how the line for its stations is. */
import { expect, it } from 'vitest';
import type { StationLineState } from '../../../src/desk/contract/stations.ts';
import { freshFloor } from './floor.ts';

it('shows the windows how the line is, and tells them only of a change', async () => {
  const floor = await freshFloor();
  const line = async () => (await floor.call('stations.get', {})).line;
  expect(await line()).toEqual({ state: 'off' });
  const told: unknown[] = [];
  floor.desk.onChanged(({ stale }) => told.push(stale?.asks));
  const failed: StationLineState = {
    state: 'failed',
    problem: { kind: 'conflict', code: 'line.port-taken', with: { port: 47_115 } },
  };
  floor.door.lineIs(failed);
  floor.door.lineIs({ ...failed });
  expect(await line()).toEqual(failed);
  expect(told).toEqual([['stations.get', 'stations.listNetworks']]);
  floor.door.lineIs({ state: 'off' });
  expect(await line()).toEqual({ state: 'off' });
  expect(told).toHaveLength(2);
  floor.desk.close();
});

it('stays as it is when a backup takes the book’s place, as do the stations that are connected', async () => {
  const floor = await freshFloor();
  const { secret } = await floor.pair('table', 'Table 2');
  const { path } = await floor.call('shop.backUp', {});
  const open: StationLineState = {
    state: 'open', host: 'desk.local', addresses: ['192.168.77.1'], port: 47_115, isNew: false,
    fingerprints: { sha256: 'AA', sha1: 'BB' },
  }; // prettier-ignore
  floor.door.lineIs(open);
  floor.door.watch(secret, () => undefined);
  floor.wait(5);
  await floor.call('shop.restore', { path });
  const { line, stations } = await floor.call('stations.get', {});
  expect(line).toEqual(open);
  expect(stations).toMatchObject([{ name: 'Table 2', connected: true }]);
  floor.desk.close();
});

it('is told to stations as the origins at which they reach the desk, also while they listen', async () => {
  const floor = await freshFloor();
  const { secret } = await floor.pair('table', 'Table 2');
  const told: unknown[] = [];
  floor.door.watch(secret, (event) => event.kind === 'station' && told.push(event.addresses));
  const open = (address: string): StationLineState => ({
    state: 'open', host: 'desk.local', addresses: [address, 'fd00::5'], port: 47_115, isNew: false,
    fingerprints: { sha256: 'AA', sha1: 'BB' },
  }); // prettier-ignore
  floor.door.lineIs(open('192.168.77.1'));
  floor.door.lineIs(open('192.168.77.9'));
  const at = (address: string) => [
    'https://desk.local:47115',
    `https://${address}:47115`,
    'https://[fd00::5]:47115',
  ];
  expect(told).toEqual([at('192.168.77.1'), at('192.168.77.9')]);
  expect(floor.door.enter(secret)).toMatchObject({ addresses: at('192.168.77.9') });
  floor.desk.close();
});
