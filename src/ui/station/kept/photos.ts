/** Files of photographs in the station's store, each with the entry that names it. */
import type { KeptEntry } from '../../../bridge/client/station/outbox.ts';
import { transact } from './database.ts';

/**
 * How long the file of a saved entry is kept, ms: a book restored from its last backup asks for the entry again, and backups are half
 * an hour apart. No longer, because a tag shows a hunter's name. Our choice, no source.
 */
const KEPT_MS = 2 * 60 * 60_000;

/** Resolves once the file is on the disk. @throws Error if the device has no room */
export async function keepPhoto(digest: string, file: Uint8Array): Promise<void> {
  await transact(['photos'], 'readwrite', (store) => store('photos').put(file, digest));
}

export function keptPhoto(digest: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  return transact<Uint8Array<ArrayBuffer> | undefined>(['photos'], 'readonly', (store) =>
    store('photos').get(digest),
  );
}

/** The digest that an entry names; null if it is none of a photograph. */
export function digestIn({ name, input }: Pick<KeptEntry, 'name' | 'input'>): string | null {
  if (name !== 'photos.add' || typeof input !== 'object' || input === null || !('digest' in input))
    return null;
  return String(input.digest);
}

/** Deletes files that no entry needs any more. What waits for the desk or a person keeps its file. */
export async function deleteOldPhotos(entries: readonly KeptEntry[], keptMs = KEPT_MS): Promise<void> {
  const since = Date.now() - keptMs;
  const needed = new Set(
    entries
      .filter(({ outcome, at }) =>
        outcome.state === 'saved' ? Date.parse(at) > since : !['dropped', 'replaced'].includes(outcome.state),
      )
      .map(digestIn),
  );
  await transact(['photos'], 'readwrite', (store) => {
    const keys = store('photos').getAllKeys();
    keys.onsuccess = () => {
      for (const key of keys.result) if (!needed.has(String(key))) store('photos').delete(key);
    };
  });
}
