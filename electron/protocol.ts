/** The app's own scheme: the window's files are served from `app://gambrel/`, never from `file://`. */
import { protocol } from 'electron';
import { windowFile } from '../src/bridge/server/window-files.ts';

const SCHEME = 'app';
const HOST = 'gambrel';

/** The address of the window. */
export const WINDOW_ADDRESS = `${SCHEME}://${HOST}/`;

/** Must run once, before the app is ready. */
export function declareScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Serves the built window from `folder`. */
export function serveScheme(folder: string): void {
  protocol.handle(SCHEME, async (request) => {
    if (!isOurs(request.url)) return new Response('Not found.', { status: 404 });
    const { pathname } = new URL(request.url);
    const { status, headers, body } = await windowFile(folder, pathname);
    // Any response to a page counts as loaded, even a 404; the window must learn that the page is missing.
    if (status !== 200 && /(^\/|\.html)$/.test(pathname)) return Response.error();
    return new Response(body, { status, headers });
  });
}

/** Whether an address (or an origin) is our own window's. Parsed, never compared by prefix. */
export function isOurs(address: string | undefined | null): boolean {
  const url = address ? URL.parse(address) : null;
  return url?.protocol === `${SCHEME}:` && url.host === HOST;
}
