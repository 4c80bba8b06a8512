/** An outbox in memory, for stations without a browser: each write lands whole, as in the store of a device. */
import { randomUUID } from 'node:crypto';
import type { ComparedStore } from '../../../../src/bridge/client/station/compare.ts';
import { nextOf, type KeptEntry, type LinePlace } from '../../../../src/bridge/client/station/outbox.ts';

export interface MemoryOutbox extends ComparedStore {
  /** In the order of typing. */
  entries: KeptEntry[];
  put(typed: { name: string; input: unknown; lineage: string; said: string; makes?: string }): KeptEntry;
}

export function memoryOutbox(): MemoryOutbox {
  let line: LinePlace = { id: randomUUID(), last: 0 };
  const entries: KeptEntry[] = [];
  return {
    entries,
    put(typed) {
      const entry: KeptEntry = {
        ...typed,
        order: (entries.at(-1)?.order ?? 0) + 1,
        id: randomUUID(),
        at: '2026-11-20T15:00:00.000Z',
        aheadMs: 0,
        shown: `Entry ${(entries.at(-1)?.order ?? 0) + 1}`,
        line: null,
        number: null,
        outcome: { state: 'waiting' },
      };
      entries.push(entry);
      return entry;
    },
    line: async () => line,
    head: async () => {
      const of = (...states: string[]) => entries.filter(({ outcome }) => states.includes(outcome.state));
      return nextOf(of('waiting'), of('asks', 'refused'));
    },
    answeredFrom: async (id, number) =>
      entries.filter((one) => one.line === id && (one.number ?? 0) >= number),
    async settle(changed, place) {
      line = place;
      for (const one of changed) entries[entries.findIndex(({ order }) => order === one.order)] = one;
    },
    all: async () => [...entries],
    async forget(gone) {
      for (const { order } of gone)
        entries.splice(
          entries.findIndex((one) => one.order === order),
          1,
        );
    },
  };
}
