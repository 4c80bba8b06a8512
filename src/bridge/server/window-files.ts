/** Serves the built window, for the app's own scheme and for the loopback server. */
import { readFile } from 'node:fs/promises';
import { extname, isAbsolute, relative, resolve } from 'node:path';

/**
 * The window's content security policy: its own files only, no inline script or style, nothing external, no
 * framing.
 */
export const WINDOW_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Sent with every response, against framing, sniffing and caching; only files that never change are cached. */
export const SAFE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': WINDOW_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};

/** The build names these files by a digest of what they hold, so a browser that has one need not ask for it again. */
const NAMED_BY_DIGEST = /^\/assets\/[^/]+$/;
const KEPT_BY_BROWSER = { 'cache-control': 'private, max-age=31536000, immutable' };

/** The file types of a built window; others are not served. */
const MEDIA_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
};

/** Error codes of a path without a file. */
const NOT_THERE: ReadonlySet<string> = new Set(['ENOENT', 'EISDIR', 'ENOTDIR', 'ENAMETOOLONG']);

interface WindowFile {
  status: 200 | 400 | 404;
  headers: Record<string, string>;
  body: Uint8Array<ArrayBuffer>;
}

/**
 * Reads one file of the built window.
 * @param folder the folder of the built window
 * @param pathname the path of the address, still percent-encoded, e.g. `/assets/index.js`; `/` is the page itself
 * @returns status 400 for an invalid path, 404 for one that does not exist or leads out of the folder
 */
export async function windowFile(folder: string, pathname: string): Promise<WindowFile> {
  const path = decodePath(pathname);
  if (path === null) return refusal(400);
  // '.' first: resolving an absolute path would drop the folder.
  const file = resolve(folder, `.${path === '/' ? '/index.html' : path}`);
  const inside = relative(folder, file);
  const type = MEDIA_TYPES[extname(file)];
  if (!type || inside.startsWith('..') || isAbsolute(inside)) return refusal(404);
  try {
    const body = new Uint8Array(await readFile(file));
    const kept = NAMED_BY_DIGEST.test(path) ? KEPT_BY_BROWSER : {};
    return { status: 200, headers: { ...SAFE_HEADERS, ...kept, 'content-type': type }, body };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code !== undefined && NOT_THERE.has(code)) return refusal(404);
    throw error;
  }
}

function decodePath(pathname: string): string | null {
  try {
    const path = decodeURIComponent(pathname);
    return path.startsWith('/') && !path.includes('\0') ? path : null;
  } catch {
    return null; // malformed percent-encoding
  }
}

function refusal(status: 400 | 404): WindowFile {
  const text = status === 400 ? 'No such address.' : 'Not found.';
  return {
    status,
    headers: { ...SAFE_HEADERS, 'content-type': 'text/plain; charset=utf-8' },
    body: new TextEncoder().encode(text),
  };
}
