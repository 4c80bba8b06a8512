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
  expect(told).toEqual([['stations.get']]);
  floor.door.lineIs({ state: 'off' });
  expect(await line()).toEqual({ state: 'off' });
  expect(told).toHaveLength(2);
  floor.desk.close();
});
