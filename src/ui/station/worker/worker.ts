/**
 * The service worker of a station's page: keeps the whole page on the device, so that it opens without the desk. A new version
 * waits until the page lets it in (`useNewVersion.ts`): a script that is fetched later still belongs to the page that is open.
 */

/** Paths of the page and of all that it may need. Filled in by the build (electron/packaging/station-build.ts). */
declare const STATION_FILES: readonly string[];
/** Differs for each version of the page. */
declare const STATION_VERSION: string;

/** The few members of a service worker's global scope that are used; the library of types has those of a page. */
interface WorkerScope {
  location: Location;
  skipWaiting(): Promise<void>;
  clients: { claim(): Promise<void> };
  addEventListener(type: 'install' | 'activate', listener: (event: Extendable) => void): void;
  addEventListener(type: 'fetch', listener: (event: Fetching) => void): void;
  addEventListener(type: 'message', listener: (event: MessageEvent<unknown>) => void): void;
}
interface Extendable {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Extendable {
  request: Request;
  respondWith(response: Promise<Response>): void;
}

const scope = self as unknown as WorkerScope;
const PREFIX = 'gambrel-station-';
const CACHE = PREFIX + STATION_VERSION;
const files: ReadonlySet<string> = new Set(STATION_FILES);

scope.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(CACHE)
      .then((cache) => cache.addAll(STATION_FILES.map((path) => new Request(path, { cache: 'reload' })))),
  );
});

scope.addEventListener('activate', (event) => {
  event.waitUntil(dropOthers().then(() => scope.clients.claim()));
});

scope.addEventListener('message', ({ data }) => {
  if (data === 'take-over') void scope.skipWaiting();
});

scope.addEventListener('fetch', (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== 'GET' || origin !== scope.location.origin || !files.has(pathname)) return;
  event.respondWith(kept(event.request, pathname));
});

async function kept(request: Request, pathname: string): Promise<Response> {
  const cache = await caches.open(CACHE);
  return (await cache.match(pathname)) ?? fetch(request);
}

async function dropOthers(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(
    names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)),
  );
}
