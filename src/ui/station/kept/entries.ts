/** The outbox in the station's store. */
import type { KeptEntry, LinePlace, OutboxStore } from '../../../bridge/client/station/outbox.ts';
import { transact } from './database.ts';

/** Saved entries that are still shown and kept: what a restored book may ask for again. Our choice, no source. */
const KEPT = 2_000;

/** The line of the outbox, begun with its first use. */
async function line(): Promise<LinePlace> {
  const known = await transact<LinePlace | undefined>(['station'], 'readonly', (store) =>
    store('station').get('line'),
  );
  if (known) return known;
  const begun = { id: crypto.randomUUID(), last: 0 };
  await transact(['station'], 'readwrite', (store) => store('station').put(begun, 'line'));
  return begun;
}

export const outboxStore: OutboxStore = {
  line,
  head: () => transact<KeptEntry | undefined>(['entries'], 'readonly', (store) =>
      store('entries').index('state').get('waiting'),
    ),
  answeredFrom: (id, number) => transact<KeptEntry[]>(['entries'], 'readonly', (store) =>
      store('entries').index('number').getAll(IDBKeyRange.bound([id, number], [id, Infinity])),
    ),
  async settle(entries, place) {
    await transact(['entries', 'station'], 'readwrite', (store) => {
      for (const entry of entries) store('entries').put(entry);
      return store('station').put(place, 'line');
    });
  },
}; // prettier-ignore

/** All entries that are kept, oldest first. */
export function allEntries(): Promise<KeptEntry[]> {
  return transact<KeptEntry[]>(['entries'], 'readonly', (store) => store('entries').getAll());
}

/** Puts an entry behind all others. Resolves once it is on the disk. */
export async function addEntry(entry: Omit<KeptEntry, 'order'>): Promise<void> {
  await transact(['entries'], 'readwrite', (store) => {
    const newest = store('entries').openKeyCursor(null, 'prev');
    newest.onsuccess = () => {
      const order = typeof newest.result?.key === 'number' ? newest.result.key + 1 : 1;
      store('entries').add({ ...entry, order });
    };
  });
}

export async function putEntries(entries: readonly KeptEntry[]): Promise<void> {
  await transact(['entries'], 'readwrite', (store) => {
    for (const entry of entries) store('entries').put(entry);
  });
}

/** Deletes the oldest saved entries beyond what is kept. What waits for the desk or a person stays. */
export async function deleteOldest(entries: readonly KeptEntry[]): Promise<void> {
  const settled = entries.filter(({ outcome }) => !['waiting', 'asks', 'refused'].includes(outcome.state));
  const old = settled.slice(0, Math.max(0, settled.length - KEPT));
  if (old.length === 0) return;
  await transact(['entries'], 'readwrite', (store) => {
    for (const { order } of old) store('entries').delete(order);
  });
}
