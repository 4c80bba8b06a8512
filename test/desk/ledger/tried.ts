/** For every call of the ledger that writes, a shop that is ready for it and an input that it takes. */
import type { CallInput, CallName } from '../../../src/bridge/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';
import type { Prepare } from '../tried-writes.ts';

/** Nobody listens there. */
export const NOWHERE = {
  host: '127.0.0.1', port: 1, database: 'shops', user: 'north', tls: 'none', ca: null, password: 'secret',
} as const satisfies CallInput<'ledger.tryIt'>; // prettier-ignore
/** A desk without upkeep feeds nothing. */
const LEDGER = { ...NOWHERE, personal: false };

const turnedOn = async (shop: FreshDesk): Promise<void> =>
  void (await shop.call('ledger.turnOn', { ...LEDGER, by: 'RO' }));

export const TRIED_LEDGER: Partial<Record<CallName, Prepare>> = {
  'ledger.turnOn': () => ['ledger.turnOn', LEDGER],
  'ledger.newBranch': async (shop) => {
    await turnedOn(shop);
    return ['ledger.newBranch', {}];
  },
  'ledger.turnOff': async (shop) => {
    await turnedOn(shop);
    return ['ledger.turnOff', {}];
  },
};
