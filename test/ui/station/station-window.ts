/** A station's window on the fake desk: entries stay in the outbox until a test answers them. */
import { flushPromises } from '@vue/test-utils';
import type { Outcome } from '../../../src/bridge/client/station/outbox.ts';
import type { ShopView } from '../../../src/bridge/contract.ts';
import { useLine } from '../../../src/ui/station/line.ts';
import { openWindow } from '../mount-part.ts';
import { kept } from './kept-entries.ts';

/** Starts a new station whose outbox is empty. */
export async function openStation(look: Partial<ShopView> = {}) {
  await openWindow(look);
  kept.begin();
  const line = useLine();
  await line.load();
  return {
    line,
    /** What was put into the outbox, oldest first. */
    sent: () => line.entries.map(({ name, input, shown }) => ({ name, input: input as object, shown })),
    /** The desk's answer to the newest entry. */
    async answer(outcome: Outcome): Promise<void> {
      const newest = line.entries.at(-1);
      if (!newest) throw new Error('Nothing was put into the outbox.');
      const changed = { ...newest, outcome };
      await kept.putEntries([changed]);
      line.note([changed]);
      await flushPromises();
    },
  };
}
