/** For every call of the ledger that writes, a shop that is ready for it and an input that it takes. */
import type { CallInput, CallName } from '../../../src/bridge/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';
import { giveable } from '../lessons/lesson-of.ts';
import type { Prepare } from '../tried-writes.ts';

/** Nobody listens there. */
export const NOWHERE = {
  host: '127.0.0.1', port: 1, database: 'shops', user: 'north', tls: 'none', ca: null, password: 'secret',
} as const satisfies CallInput<'ledger.tryIt'>; // prettier-ignore
/** A desk without upkeep feeds nothing. */
const LEDGER = { ...NOWHERE, personal: false };

const withPassword = (shop: FreshDesk): Promise<unknown> =>
  shop.call('ledger.storePassword', { password: NOWHERE.password });
const turnedOn = async (shop: FreshDesk): Promise<void> => {
  await withPassword(shop);
  await shop.call('ledger.turnOn', { ...LEDGER, by: 'RO' });
};

export const TRIED_LEDGER: Partial<Record<CallName, Prepare>> = {
  'ledger.turnOn': async (shop) => {
    await withPassword(shop);
    return ['ledger.turnOn', LEDGER];
  },
  'ledger.lesson': async (shop) => {
    await giveable(shop);
    return ['ledger.lesson', {}];
  },
  'ledger.newBranch': async (shop) => {
    await turnedOn(shop);
    return ['ledger.newBranch', {}];
  },
  'ledger.turnOff': async (shop) => {
    await turnedOn(shop);
    return ['ledger.turnOff', {}];
  },
};
