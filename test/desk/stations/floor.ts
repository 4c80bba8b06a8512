/** A shop with its stations switched on, and devices that are let in. */
import { randomUUID } from 'node:crypto';
import type { OutboxEntry } from '../../../src/desk/contract/stations.ts';
import { openStationDoor } from '../../../src/desk/station-door.ts';
import type { Place } from '../../../src/trade/place.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';

const DEVICE = {
  agent: 'Safari on a tablet',
  address: '192.168.77.20',
  origin: 'https://192.168.77.1:47115',
};

export async function floorOn(shop: FreshDesk) {
  const door = openStationDoor(shop.desk);

  /** A device that asked with the shop's code and waits. */
  async function asking(): Promise<{ request: string; number: string }> {
    const { code } = await shop.call('stations.newCode', {});
    return door.ask(code?.code ?? '', DEVICE);
  }
  /** A device that the owner let in. */
  async function pair(place: Place, name: string = place) {
    const { request } = await asking();
    const { id } = await shop.call('stations.allow', { request, name, place, language: 'en-US', by: 'MK' });
    const outcome = door.outcome(request);
    if (outcome.state !== 'allowed') throw new Error(outcome.state);
    const { opening } = await shop.call('shop.get', {});
    const { secret } = outcome;
    return {
      id,
      secret,
      call: (call: string, input: unknown) => door.call(secret, { name: call, input, opening }),
    };
  }
  await shop.call('stations.setUp', { on: true, address: '192.168.77.1', pins: false, by: 'MK' });
  return { ...shop, door, asking, pair, device: DEVICE };
}

export const freshFloor = async () => floorOn(await freshDesk());
export type Floor = Awaited<ReturnType<typeof freshFloor>>;

/** The outbox of a device: entries with a running number each. */
export function outbox(floor: Floor, secret: string, line: string = randomUUID()) {
  let last = 0;
  return (name: string, input: unknown, more: Partial<OutboxEntry> = {}): OutboxEntry => {
    const entrance = floor.door.enter(secret);
    const lineage = entrance.state === 'open' ? entrance.lineage : '';
    last += 1;
    return {
      wire: 1, line, number: last, id: randomUUID(), lineage, name, input, at: '2026-10-10T14:59:00.000Z', aheadMs: 0, said: 'RB', ...more,
    }; // prettier-ignore
  };
}
