/** Photographs over the line for stations, and attacks on them: what is no picture of ours, huge, slow, or a path. */
import { createHash } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { MAX_PHOTO_BYTES } from '../../../src/trade/photo.ts';
import { photoOf } from '../../photo-of.ts';
import { SECRET } from './echo-door.ts';
import { ask, asStation, knock, openLine, told, type OpenLine } from './open-line.ts';

const photo = photoOf();
const digest = createHash('sha256').update(photo).digest('hex');
/** Short enough for a test. */
const PATIENCE = { firstMs: 400, headersMs: 400, requestMs: 900, checkMs: 100 };

let line: OpenLine;
beforeAll(async () => {
  line = await openLine({ patience: PATIENCE });
});
afterAll(() => line.close());
beforeEach(() => line.door.photos.clear());

/** A PUT of a photograph that is good but for what a row changes; bytes as Latin-1. */
function put(
  headers: Record<string, string | null> = {},
  body: Uint8Array = photo,
  path = `/photo/${digest}`,
): Uint8Array {
  const all: Record<string, string | null> = {
    host: line.host,
    authorization: `Bearer ${SECRET}`,
    'content-type': 'image/jpeg',
    'content-length': String(body.length),
    connection: 'close',
    ...headers,
  };
  const head = Object.entries(all).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  return Buffer.concat([Buffer.from(`PUT ${path} HTTP/1.1\r\n${head.join('\r\n')}\r\n\r\n`), body]);
}
const statusOf = (heard: string) => Number(/^HTTP\/1\.1 (\d{3})/.exec(heard)?.[1] ?? 0);

it('takes a file under its digest, and gives it back as a picture that can do nothing', async () => {
  expect(statusOf(await knock(line, put()))).toBe(200);
  expect(Buffer.from(line.door.photos.get(digest) ?? []).equals(photo)).toBe(true);
  const response = await ask(line, `/photo/${digest}`, { headers: asStation() });
  const pieces: Buffer[] = [];
  for await (const piece of response) pieces.push(piece as Buffer);
  expect(Buffer.concat(pieces).equals(photo)).toBe(true);
  expect(response.headers).toMatchObject({
    'content-type': 'image/jpeg',
    'content-security-policy': "default-src 'none'; sandbox",
    'x-content-type-options': 'nosniff',
    'cache-control': 'no-store',
    'cross-origin-resource-policy': 'same-origin',
  });
});

it('gives nothing that the desk does not show this place, and nothing without a secret', async () => {
  const none = await told(line, `/photo/${'a'.repeat(64)}`, { headers: asStation() });
  expect([none.status, none.json()]).toEqual([404, { ok: false, problem: { kind: 'missing', code: 'photo.unknown' } }]);
  line.door.photos.set(digest, photo);
  expect((await told(line, `/photo/${digest}`)).status).toBe(401);
  expect((await told(line, `/photo/${digest}`, { headers: { authorization: 'Bearer other' } })).status).toBe(401);
}); // prettier-ignore

describe('refuses', () => {
  it.each<[string, () => Uint8Array, number]>([
    ['a file without a secret', () => put({ authorization: null }), 401],
    ['a secret in the address', () => put({ authorization: null }, photo, `/photo/${digest}?bearer=${SECRET}`), 401],
    ['the page of another site', () => put({ origin: 'https://evil.example' }), 403],
    ['another name for this computer', () => put({ host: `shop.evil.example:${line.port}` }), 403],
    ['a file of another kind', () => put({ 'content-type': 'image/svg+xml' }), 415],
    ['text for a picture', () => put({ 'content-type': 'text/html' }), 415],
    ['JSON for a picture', () => put({ 'content-type': 'application/json' }, Buffer.from('{}')), 415],
    ['a file without a kind', () => put({ 'content-type': null }), 415],
    ['a huge file', () => put({}, new Uint8Array(MAX_PHOTO_BYTES + 1)), 413],
    ['a file that says it is huge', () => put({ 'content-length': String(10 ** 9) }), 413],
    ['a picture in place of a call', () => put({}, photo, '/call/table.weigh'), 405],
    ['a name in capitals', () => put({}, photo, `/photo/${digest.toUpperCase()}`), 404],
    ['a short name', () => put({}, photo, `/photo/${digest.slice(1)}`), 404],
    ['a path upward', () => put({}, photo, '/photo/../../etc/passwd'), 404],
    ['a path upward in code', () => put({}, photo, '/photo/..%2f..%2fshop.gambrel'), 404],
    ['a path behind the name', () => put({}, photo, `/photo/${digest}/..`), 404],
    ['a name that ends early', () => put({}, photo, `/photo/${digest}%00.html`), 404],
    ['no name', () => put({}, photo, '/photo/'), 404],
  ])('%s', async (_what, request, status) => {
    const heard = await knock(line, request());
    expect(statusOf(heard)).toBe(status);
    expect(line.door.photos.size).toBe(0);
    expect(heard).not.toMatch(/\.ts|node:|Error:/);
  }); // prettier-ignore

  it('a file that never ends, after a moment', async () => {
    const begun = Date.now();
    const heard = await knock(line, put({ 'content-length': '400000' }).subarray(0, 700));
    expect([0, 408]).toContain(statusOf(heard));
    expect(Date.now() - begun).toBeLessThan(4_000);
    expect(line.door.photos.size).toBe(0);
    expect(statusOf(await knock(line, put()))).toBe(200);
  });

  it('a picture as the input of a call', async () => {
    const text = Buffer.from(put({}, photo, '/call/table.weigh'))
      .toString('latin1')
      .replace(/^PUT/, 'POST');
    expect(statusOf(await knock(line, Buffer.from(text, 'latin1')))).toBe(415);
    expect(line.door.calls).toEqual([]);
  });
});

it('lets the page of a former address send a file', async () => {
  const former = `https://192.168.1.5:${line.port}`;
  line.door.registered.push(former);
  const allowed = await told(line, `/photo/${digest}`, {
    method: 'OPTIONS',
    headers: { origin: former, 'access-control-request-method': 'PUT' },
  });
  expect([allowed.status, allowed.headers['access-control-allow-methods']]).toEqual([204, 'GET, POST, PUT']);
  line.door.registered.length = 0;
});
