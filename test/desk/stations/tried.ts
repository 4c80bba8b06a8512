/** For every call of stations that writes, a shop that is ready for it and an input that it takes. */
import type { CallName } from '../../../src/bridge/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';
import type { Prepare } from '../tried-writes.ts';
import { floorOn } from './floor.ts';

/** A name that no other station of the same shop has. */
let last = 0;
const named = () => ({ name: `Table ${++last}`, place: 'table', language: 'es-MX' }) as const;
const paired = async (shop: FreshDesk): Promise<number> =>
  (await (await floorOn(shop)).pair('table', named().name)).id;
const staffed = async (shop: FreshDesk) => {
  await shop.call('shop.addStaff', { initials: 'RO', name: 'Robin' });
  return { initials: 'RO' };
};

export const TRIED_STATIONS: Partial<Record<CallName, Prepare>> = {
  'stations.setUp': () => ['stations.setUp', { on: true, address: '192.168.77.1', pins: true }],
  'stations.allow': async (shop) => {
    const { request } = await (await floorOn(shop)).asking();
    return ['stations.allow', { request, ...named() }];
  },
  'stations.rename': async (shop) => ['stations.rename', { id: await paired(shop), ...named() }],
  'stations.pause': async (shop) => ['stations.pause', { id: await paired(shop), reason: 'left outside' }],
  'stations.resume': async (shop) => {
    const id = await paired(shop);
    await shop.call('stations.pause', { id });
    return ['stations.resume', { id, reason: 'found' }];
  },
  'stations.remove': async (shop) => ['stations.remove', { id: await paired(shop), reason: 'lost' }],
  'stations.decide': async (shop) => {
    const floor = await floorOn(shop);
    const { id, secret } = await floor.pair('table', named().name);
    floor.door.holds(secret, { waiting: 2, unanswered: 0, ofOtherBook: 2, left: 0 });
    return ['stations.decide', { id, take: true }];
  },
  'stations.setPin': async (shop) => ['stations.setPin', { ...(await staffed(shop)), pin: '2480' }],
  'stations.clearPin': async (shop) => {
    const initials = await staffed(shop);
    await shop.call('stations.setPin', { ...initials, pin: '2480' });
    return ['stations.clearPin', initials];
  },
};
