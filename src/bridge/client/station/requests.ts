/** What a station's page sends to the desk: over TLS, with its secret, to the address that answered last. */
import type { Answer, Problem } from '../../../desk/contract/problem.ts';
import type { StationState } from '../../../desk/contract/stations.ts';
import { HELD_HEADER } from '../../wire.ts';

/** Time after which a request counts as lost, ms. */
const PATIENCE = 10_000;
/** The same for a file of half a megabyte over a weak wireless, ms. */
const PATIENCE_OF_FILE = 20_000;

/** Why a station is not let in; `unknown`: another book is open, or none. */
export type Shut = Exclude<StationState, 'open'> | 'unknown';

/** The desk gave no answer: it may be off, out of reach or busy. `problem` is what it said, if anything. */
export class DeskAway extends Error {
  readonly problem: Problem | null;
  constructor(problem: Problem | null = null) {
    super(problem?.code ?? 'desk.gone');
    this.problem = problem;
  }
}

/** The desk does not let this station in. */
export class ShutOut extends Error {
  readonly state: Shut;
  constructor(state: Shut) {
    super(`station.${state}`);
    this.state = state;
  }
}

export interface RequestPlace {
  fetch: typeof fetch;
  /** The station's secret; null until it is paired. */
  secret(): string | null;
  /** Origins at which the desk may be, likeliest first. Example: `https://192.168.1.5:47115`. */
  addresses(): readonly string[];
  /** What the outbox holds, as in `HELD_HEADER`; told with each request of a paired station. */
  held?(): string;
}

export interface StationRequests {
  /**
   * Posts JSON and returns the answer's body.
   * @throws DeskAway, ShutOut
   */
  post<T>(path: string, body: unknown, headers?: Record<string, string>): Promise<T>;
  /**
   * Posts to each known address until one answers, and stays with that one.
   * @throws DeskAway, ShutOut
   */
  postAnywhere<T>(path: string, body: unknown): Promise<T>;
  /**
   * Puts the file of a photograph.
   * @throws DeskAway, ShutOut
   */
  putPhoto(digest: string, file: Uint8Array<ArrayBuffer>): Promise<Answer<unknown>>;
  /**
   * The file of a photograph; null if this place may not see it, or there is none.
   * @throws DeskAway, ShutOut
   */
  photo(digest: string): Promise<Blob | null>;
  /**
   * Opens the change stream.
   * @throws DeskAway, ShutOut
   */
  listen(signal: AbortSignal): Promise<ReadableStream<Uint8Array>>;
}

export function stationRequests(place: RequestPlace): StationRequests {
  let last: string | undefined;
  const known = () => place.addresses();
  const current = () => (last !== undefined && known().includes(last) ? last : (known()[0] ?? ''));

  async function send(origin: string, path: string, init: RequestInit): Promise<Response> {
    const headers = new Headers(init.headers);
    const secret = place.secret();
    if (secret !== null) headers.set('authorization', `Bearer ${secret}`);
    if (secret !== null && place.held && !headers.has(HELD_HEADER)) headers.set(HELD_HEADER, place.held());
    try {
      return await place.fetch(origin + path, { ...init, headers });
    } catch {
      throw new DeskAway(); // no connection, or it broke
    }
  }

  async function postTo<T>(origin: string, path: string, body: unknown, more = {}): Promise<T> {
    const headers = { 'content-type': 'application/json', ...more };
    const signal = AbortSignal.timeout(PATIENCE);
    const response = await send(origin, path, {
      method: 'POST',
      headers,
      signal,
      body: JSON.stringify(body),
    });
    if (!response.ok) throw await refusalOf(response);
    return jsonOf<T>(response);
  }

  return {
    post: (path, body, headers) => postTo(current(), path, body, headers),
    async postAnywhere<T>(path: string, body: unknown): Promise<T> {
      let away = new DeskAway();
      for (const origin of [current(), ...known().filter((one) => one !== current())]) {
        try {
          const answer = await postTo<T>(origin, path, body);
          last = origin;
          return answer;
        } catch (error) {
          if (!(error instanceof DeskAway)) throw error;
          away = error;
        }
      }
      throw away;
    },
    async putPhoto(digest, file) {
      const headers = { 'content-type': 'image/jpeg' };
      const signal = AbortSignal.timeout(PATIENCE_OF_FILE);
      const init = { method: 'PUT', headers, signal, body: new Blob([file]) };
      const response = await send(current(), `/photo/${digest}`, init);
      if (!response.ok) throw await refusalOf(response);
      return jsonOf<Answer<unknown>>(response);
    },
    async photo(digest) {
      const signal = AbortSignal.timeout(PATIENCE_OF_FILE);
      const response = await send(current(), `/photo/${digest}`, { signal });
      if (response.status === 404) return null;
      if (!response.ok) throw await refusalOf(response);
      return blobOf(response);
    },
    async listen(signal) {
      const response = await send(current(), '/events', { signal });
      if (!response.ok || !response.body) throw await refusalOf(response);
      return response.body;
    },
  };
}

async function blobOf(response: Response): Promise<Blob> {
  try {
    return await response.blob();
  } catch {
    throw new DeskAway(); // a truncated answer
  }
}

async function jsonOf<T>(response: Response): Promise<T> {
  try {
    return (await response.json()) as T;
  } catch {
    throw new DeskAway(); // a truncated answer
  }
}

async function refusalOf(response: Response): Promise<Error> {
  const { problem } = await jsonOf<{ problem?: Problem }>(response);
  // The desk has another address now, and an old connection to the former one.
  if (problem?.code === 'request.wrong-host') return new DeskAway();
  const state = /^station\.(paused|removed|unknown)$/.exec(problem?.code ?? '')?.[1];
  return response.status === 401 && state !== undefined
    ? new ShutOut(state as Shut)
    : new DeskAway(problem ?? null);
}
