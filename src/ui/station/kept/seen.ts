/** The last answers to a station's questions, shown while the desk is away. */
import type { AskName } from '../../../bridge/contract.ts';
import { transact } from './database.ts';

/** Questions whose answers are kept. None of them finds people by name. */
const KEPT = [
  'shop.get', 'rail.get', 'coolers.list', 'coolers.getRecord', 'animals.get', 'animals.find', 'belongings.list', 'photos.list',
  'grinder.get', 'grinder.getBatch', 'fat.listLots', 'recipes.list', 'recipes.get', 'made.list', 'made.get',
  'loads.list', 'loads.get', 'pickup.get',
] as const satisfies readonly AskName[]; // prettier-ignore

const names: ReadonlySet<string> = new Set(KEPT);
/** The most answers that are kept; the oldest go first. */
const MOST = 400;

interface Seen {
  value: unknown;
  at: number;
}

const keyOf = (name: string, input: unknown): string => `${name} ${JSON.stringify(input)}`;

export async function keepSeen(name: string, input: unknown, value: unknown): Promise<void> {
  if (!names.has(name)) return;
  await transact(['seen'], 'readwrite', (store) => {
    const all = store('seen');
    all.put({ value, at: Date.now() } satisfies Seen, keyOf(name, input));
    const count = all.count();
    count.onsuccess = () => {
      if (count.result > MOST) dropOldest(all, count.result - MOST);
    };
  });
}

function dropOldest(store: IDBObjectStore, many: number): void {
  const found: { key: IDBValidKey; at: number }[] = [];
  const cursor = store.openCursor();
  cursor.onsuccess = () => {
    const at = cursor.result;
    if (at) {
      found.push({ key: at.primaryKey, at: (at.value as Seen).at });
      at.continue();
      return;
    }
    const oldest = found.toSorted((a, b) => a.at - b.at).slice(0, many);
    for (const { key } of oldest) store.delete(key);
  };
}

/** The last answer to this question; undefined if there is none. */
export async function seenOf(name: string, input: unknown): Promise<unknown> {
  if (!names.has(name)) return undefined;
  const seen = await transact<Seen | undefined>(['seen'], 'readonly', (store) =>
    store('seen').get(keyOf(name, input)),
  );
  return seen?.value;
}

export async function forgetSeen(): Promise<void> {
  await transact(['seen'], 'readwrite', (store) => store('seen').clear());
}
