/** A station's store that lasts as long as a test. Replaces `src/ui/station/kept/entries.ts`. */
import type { KeptEntry } from '../../../src/bridge/client/station/outbox.ts';

let entries: KeptEntry[] = [];

export const kept = {
  begin(): void {
    entries = [];
  },
  allEntries: async (): Promise<KeptEntry[]> => structuredClone(entries),
  async addEntry(entry: Omit<KeptEntry, 'order'>): Promise<void> {
    entries.push(structuredClone({ ...entry, order: entries.length + 1 }));
  },
  async putEntries(changed: readonly KeptEntry[]): Promise<void> {
    entries = entries.map((entry) => structuredClone(changed.find(({ id }) => id === entry.id) ?? entry));
  },
};
