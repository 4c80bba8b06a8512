/** Authenticates a browser window. */

/** The few members used of `sessionStorage`, which ends with the tab and survives a reload. */
export interface SessionStore {
  getItem(name: string): string | null;
  setItem(name: string, value: string): void;
  removeItem(name: string): void;
}

export interface SessionPlace {
  fetch: typeof fetch;
  store: SessionStore;
  /** The code from the address, or null after a reload. It is valid once. */
  code: string | null;
  /** Requests the session of another window of this browser; null if there is none. */
  askOthers(): Promise<string | null>;
}

export interface Session {
  /** `fetch` with the session, obtained first if missing or expired. Rejects like `fetch`. */
  fetch(path: string, init?: RequestInit): Promise<Response>;
}

export const SESSION = 'gambrel.session';

/** Opens the session of one window: by the code in its address, else the stored one, else that of another window. */
export function openSession({ fetch: fetchIt, store, code: given, askOthers }: SessionPlace): Session {
  let code = given;
  let looking: Promise<string | null> | null = null;

  /** Concurrent calls share one lookup: the code may be used once only. */
  const session = () => (looking ??= obtain().finally(() => (looking = null)));

  async function obtain(): Promise<string | null> {
    const session = (await showCode()) ?? store.getItem(SESSION) ?? (await askOthers());
    if (session !== null) store.setItem(SESSION, session);
    return session;
  }

  /** Used immediately, even with a stored session, so that the code is consumed and worthless to others. */
  async function showCode(): Promise<string | null> {
    if (code === null) return null;
    const response = await fetchIt('/session', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code }),
    });
    code = null;
    return response.ok ? ((await response.json()) as { bearer: string }).bearer : null;
  }

  function send(path: string, init: RequestInit, bearer: string | null): Promise<Response> {
    const headers = new Headers(init.headers);
    if (bearer !== null) headers.set('authorization', `Bearer ${bearer}`);
    return fetchIt(path, { ...init, headers });
  }

  return {
    async fetch(path, init = {}) {
      const first = await session();
      const response = await send(path, init, first);
      if (response.status !== 401 || first === null) return response;
      if (store.getItem(SESSION) === first) store.removeItem(SESSION);
      const next = await session();
      return next === null ? response : send(path, init, next);
    },
  };
}
