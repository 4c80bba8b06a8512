/** How a browser window proves that its person has the printed address. */

/** The few members used of `sessionStorage`. */
export interface PassStore {
  getItem(name: string): string | null;
  setItem(name: string, value: string): void;
  removeItem(name: string): void;
}

export interface Session {
  /** `fetch` with the pass; exchanges the key for a pass when there is none or it has lapsed. Rejects like `fetch`. */
  fetch(path: string, init?: RequestInit): Promise<Response>;
}

const PASS = 'gambrel.pass';

/**
 * Opens the session of one window. The pass is kept in `store` so that a reload needs no key; the key stays in
 * memory for as long as the window, in case the pass lapses.
 * @param key the key from the address, or null after a reload
 */
export function openSession(fetchIt: typeof fetch, store: PassStore, key: string | null): Session {
  async function exchange(): Promise<string | null> {
    if (key === null) return null;
    const response = await fetchIt('/session', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ key }),
    });
    if (!response.ok) return null;
    const { bearer } = (await response.json()) as { bearer: string };
    store.setItem(PASS, bearer);
    return bearer;
  }

  function send(path: string, init: RequestInit, pass: string | null): Promise<Response> {
    const headers = new Headers(init.headers);
    if (pass !== null) headers.set('authorization', `Bearer ${pass}`);
    return fetchIt(path, { ...init, headers });
  }

  return {
    async fetch(path, init = {}) {
      const kept = store.getItem(PASS);
      const response = await send(path, init, kept ?? (await exchange()));
      if (response.status !== 401 || kept === null) return response;
      if (store.getItem(PASS) === kept) store.removeItem(PASS);
      const pass = await exchange();
      return pass === null ? response : send(path, init, pass);
    },
  };
}
