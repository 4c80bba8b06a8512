/** The station's own store in the browser (IndexedDB), opened again whenever the browser drops it. */

const NAME = 'gambrel-station';
/** 2 keeps photographs. */
const VERSION = 2;

/**
 * `station`: the rows `pairing` and `line`. `entries`: by `order`. `seen`: answers by their question. `photos`: files by their digest.
 */
export type StoreName = 'station' | 'entries' | 'seen' | 'photos';
type Use<T> = (store: (name: StoreName) => IDBObjectStore) => IDBRequest<T> | T;

class Connection {
  #opened: Promise<IDBDatabase> | null = null;

  open(): Promise<IDBDatabase> {
    return (this.#opened ??= this.#connect().catch((error: unknown) => {
      this.forget();
      throw error;
    }));
  }

  forget(): void {
    this.#opened = null;
  }

  #connect(): Promise<IDBDatabase> {
    return new Promise((resolve, reject) => {
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = ({ oldVersion }) => createStores(request.result, oldVersion);
      request.onerror = () => reject(request.error ?? new Error('The store did not open.'));
      request.onsuccess = () => {
        // A tablet drops the store of a page in the background; the next use opens it again.
        request.result.onclose = () => this.forget();
        request.result.onversionchange = () => {
          request.result.close();
          this.forget();
        };
        resolve(request.result);
      };
    });
  }
}

const connection = new Connection();

function createStores(database: IDBDatabase, oldVersion: number): void {
  database.createObjectStore('photos');
  if (oldVersion > 0) return;
  database.createObjectStore('station');
  database.createObjectStore('seen');
  const entries = database.createObjectStore('entries', { keyPath: 'order' });
  entries.createIndex('state', 'outcome.state');
  entries.createIndex('number', ['line', 'number']);
}

/** Runs `use` in one transaction and resolves with its result once everything is on the disk, or rejects and nothing is. */
export async function transact<T>(
  stores: readonly StoreName[],
  mode: IDBTransactionMode,
  use: Use<T>,
): Promise<T> {
  try {
    return await attempt(await connection.open(), stores, mode, use);
  } catch (error) {
    // The connection was lost: once more with a new one. A second failure is the caller's.
    if (!(error instanceof DOMException && error.name === 'InvalidStateError')) throw error;
    connection.forget();
    return attempt(await connection.open(), stores, mode, use);
  }
}

function attempt<T>(
  database: IDBDatabase,
  stores: readonly StoreName[],
  mode: IDBTransactionMode,
  use: Use<T>,
): Promise<T> {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction([...stores], mode, { durability: 'strict' });
    const wanted = use((name) => transaction.objectStore(name));
    transaction.oncomplete = () => resolve(wanted instanceof IDBRequest ? wanted.result : wanted);
    transaction.onabort = () => reject(transaction.error ?? new Error('The store did not write.'));
  });
}
