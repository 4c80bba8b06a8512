/** What the station knows of itself, in its store. */
import type { StationInfo } from '../../../bridge/contract.ts';
import type { Shut } from '../../../bridge/client/station/requests.ts';
import { transact } from './database.ts';

export interface Pairing {
  station: StationInfo;
  /** Null once the station was removed. */
  secret: string | null;
  /** Origins at which the desk may be, the station's own first. */
  addresses: readonly string[];
  /** The book and its restorings under which entries are made; null before the first entrance. */
  lineage: string | null;
  /** Whether people sign in with a PIN. */
  signIn: boolean;
  /** How far this device's clock is ahead of the desk's, ms. */
  aheadMs: number;
  /** Why the desk did not let the station in, the last time that it answered. */
  shut: Shut | null;
}

export async function readPairing(): Promise<Pairing | null> {
  const kept = await transact<Pairing | undefined>(['station'], 'readonly', (store) =>
    store('station').get('pairing'),
  );
  return kept ?? null;
}

export async function keepPairing(pairing: Pairing): Promise<void> {
  await transact(['station'], 'readwrite', (store) => store('station').put(pairing, 'pairing'));
}

/** A newly paired station begins another line: the former one belongs to another station. */
export async function beginPairing(pairing: Pairing): Promise<void> {
  await transact(['station', 'seen'], 'readwrite', (store) => {
    store('station').delete('line');
    store('seen').clear();
    return store('station').put(pairing, 'pairing');
  });
}
