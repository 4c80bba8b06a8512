/** An outbox in memory, for stations without a browser: each write lands whole, as in the store of a device. */
import { randomUUID } from 'node:crypto';
import type { KeptEntry, LinePlace, OutboxStore } from '../../../../src/bridge/client/station/outbox.ts';

export interface MemoryOutbox extends OutboxStore {
  /** In the order of typing. */
  entries: KeptEntry[];
  put(typed: { name: string; input: unknown; lineage: string; said: string }): KeptEntry;
}

export function memoryOutbox(): MemoryOutbox {
  let line: LinePlace = { id: randomUUID(), last: 0 };
  const entries: KeptEntry[] = [];
  return {
    entries,
    put(typed) {
      const entry: KeptEntry = {
        ...typed,
        order: entries.length + 1,
        id: randomUUID(),
        at: '2026-11-20T15:00:00.000Z',
        aheadMs: 0,
        shown: `Entry ${entries.length + 1}`,
        line: null,
        number: null,
        outcome: { state: 'waiting' },
      };
      entries.push(entry);
      return entry;
    },
    line: async () => line,
    head: async () => entries.find(({ outcome }) => outcome.state === 'waiting'),
    answeredFrom: async (id, number) =>
      entries.filter((one) => one.line === id && (one.number ?? 0) >= number),
    async settle(changed, place) {
      line = place;
      for (const one of changed) entries[one.order - 1] = one;
    },
  };
}
