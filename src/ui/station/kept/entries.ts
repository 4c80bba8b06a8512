/** The outbox in the station's store. */
import type { ComparedStore } from '../../../bridge/client/station/compare.ts';
import { namesIn, nextOf, type KeptEntry, type LinePlace } from '../../../bridge/client/station/outbox.ts';
import { transact } from './database.ts';

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

export const outboxStore: ComparedStore = {
  line,
  async head() {
    const oldest = await transact<KeptEntry | undefined>(['entries'], 'readonly', (store) =>
      store('entries').index('state').get('waiting'),
    );
    // Nearly always it names nothing; all others are read only where it may have to stay behind.
    if (!oldest || namesIn(oldest.input).length === 0) return oldest;
    const of = async (state: KeptEntry['outcome']['state']) => transact<KeptEntry[]>(['entries'], 'readonly', (store) =>
      store('entries').index('state').getAll(state),
    );
    return nextOf(await of('waiting'), [...(await of('asks')), ...(await of('refused'))]);
  },
  answeredFrom: (id, number) => transact<KeptEntry[]>(['entries'], 'readonly', (store) =>
      store('entries').index('number').getAll(IDBKeyRange.bound([id, number], [id, Infinity])),
    ),
  async settle(entries, place) {
    await transact(['entries', 'station'], 'readwrite', (store) => {
      for (const entry of entries) store('entries').put(entry);
      return store('station').put(place, 'line');
    });
  },
  all: allEntries,
  async forget(entries) {
    await transact(['entries'], 'readwrite', (store) => {
      for (const { order } of entries) store('entries').delete(order);
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
