/** Attacks on the line for stations over real sockets: none reaches the desk, and none keeps a station from it. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect as connectSecurely } from 'node:tls';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { makeAuthority } from '../../../src/bridge/authority/certificates.ts';
import { openAuthority } from '../../../src/bridge/authority/open.ts';
import { BODY_LIMIT } from '../../../src/bridge/server/json-body.ts';
import { CODE, SECRET } from './echo-door.ts';
import { asStation, HOST, knock, knockPlain, openLine, told, type OpenLine } from './open-line.ts';

const DAY = 86_400_000;
/** Short enough for a test, and the same for every stage. */
const PATIENCE = { firstMs: 400, headersMs: 400, requestMs: 900, checkMs: 100 };

let line: OpenLine;
beforeAll(async () => {
  line = await openLine({ patience: PATIENCE });
});
afterAll(() => line.close());
beforeEach(() => {
  line.door.calls.length = 0;
  line.door.asked.length = 0;
});

/** A call that is good but for what a row changes. */
function call(
  headers: Record<string, string | null> = {},
  body = '{}',
  first = 'POST /call/table.weigh',
): string {
  const all: Record<string, string | null> = {
    host: line.host,
    authorization: `Bearer ${SECRET}`,
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(body)),
    connection: 'close',
    ...headers,
  };
  const head = Object.entries(all).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  return `${first} HTTP/1.1\r\n${head.join('\r\n')}\r\n\r\n${body}`;
}
const statusOf = (heard: string) => Number(/^HTTP\/1\.1 (\d{3})/.exec(heard)?.[1] ?? 0);

it('answers the call that the attacks below change', async () => {
  expect(statusOf(await knock(line, call()))).toBe(200);
  expect(line.door.calls).toHaveLength(1);
});

describe('over TLS', () => {
  it.each<[string, () => string, number[]]>([
    ['another site that resolves to this address', () => call({ host: `shop.evil.example:${line.port}` }), [403]],
    ['localhost', () => call({ host: `localhost:${line.port}` }), [403]],
    ['another port', () => call({ host: `${line.address}:443` }), [403]],
    ['no port', () => call({ host: line.address }), [403]],
    ['a name in front', () => call({ host: `a@${line.host}` }), [403]],
    ['a name behind', () => call({ host: `${line.host}.evil.example` }), [403]],
    ['no host', () => call({ host: null }), [400, 403]],
    ['two hosts', () => call({ Host: 'evil.example' }), [400, 403]],
    ['a whole address in the first line', () => call({}, '{}', `POST https://${line.host}/call/table.weigh`), [400]],
    ['the page of another site', () => call({ origin: 'https://evil.example' }), [403]],
    ['a page without an origin of its own', () => call({ origin: 'null' }), [403]],
    ['an empty origin', () => call({ origin: '' }), [403]],
    ['our page over plain HTTP', () => call({ origin: `http://${line.host}` }), [403]],
    ['another port of this computer', () => call({ origin: `https://${line.address}:8443` }), [403]],
    ['an origin that begins like ours', () => call({ origin: `${line.origin}.evil.example` }), [403]],
    ['an origin with our name in front', () => call({ origin: `https://${line.host}@evil.example` }), [403]],
    ['no secret', () => call({ authorization: null }), [401]],
    ['a wrong secret', () => call({ authorization: `Bearer ${SECRET}x` }), [401]],
    ['two secrets', () => call({ authorization: `Bearer ${SECRET}, Bearer ${SECRET}` }), [401]],
    ['the secret in the address', () => call({ authorization: null }, '{}', `POST /call/table.weigh?bearer=${SECRET}`), [401]],
    ['text for JSON', () => call({ 'content-type': 'text/plain' }), [415]],
    ['no kind of content', () => call({ 'content-type': null }), [415]],
    ['two lengths', () => call({ 'Content-Length': '1' }), [400]],
    ['a length and pieces', () => call({ 'transfer-encoding': 'chunked' }), [400]],
    ['half of a JSON text', () => call({}, '{"grams":'), [400]],
    ['a prototype', () => call({}, '{"__proto__":{"polluted":true}}'), [400]],
    ['a deep body', () => call({}, '['.repeat(500_000)), [400]],
    ['a body that is too large', () => call({}, `{"x":"${'x'.repeat(BODY_LIMIT)}"}`), [413]],
    ['a call by its address only', () => call({}, '', 'GET /call/table.weigh'), [405]],
    ['a method that nobody uses', () => call({}, '{}', 'PUT /call/table.weigh'), [405]],
    ['a tunnel', () => call({}, '', 'CONNECT 127.0.0.1:22'), [0]],
    ['a change of protocol', () => call({ upgrade: 'websocket', connection: 'upgrade', authorization: null }, '', 'GET /events'), [401]],
  ])('refuses %s', async (_what, text, statuses) => {
    const heard = await knock(line, text());
    expect(statuses).toContain(statusOf(heard));
    expect(line.door.calls).toEqual([]);
    expect(heard).not.toMatch(/\.ts|node:|Error:/);
  }); // prettier-ignore

  it.each([
    '__proto__',
    'constructor',
    'table.__proto__',
    'table',
    '.',
    'table%2eweigh',
    'table.weigh/..',
    '..%2fentry',
  ])('knows no call named %s', async (name) => {
    expect(statusOf(await knock(line, call({}, '{}', `POST /call/${name}`)))).toBe(404);
    expect(line.door.calls).toEqual([]);
  });

  it.each([
    '/../secret.json', '/%2e%2e/secret.json', '/..%2fsecret.json', '/assets/../../secret.json', '/..%5csecret.json',
    '/%00/../secret.json', '/index.html%00.json', '//etc/passwd', '/assets/%2e%2e%2f%2e%2e%2fsecret.json', '/.%2e/secret.json',
  ])('gives no file outside of the window for %s', async (path) => {
    const heard = await knock(line, call({ authorization: null }, '', `GET ${path}`));
    expect([400, 404]).toContain(statusOf(heard));
    expect(heard).not.toMatch(/secret"|root:/);
  }); // prettier-ignore

  it('pairs nobody twice with one code, and nobody who is no page of ours', async () => {
    const pair = (headers: Record<string, string>) =>
      told(line, '/pairing', { headers, body: { code: CODE } });
    for (const origin of ['https://evil.example', `http://${line.host}`, 'null'])
      expect((await pair({ origin })).status).toBe(403);
    expect((await pair({})).status).toBe(403);
    expect(line.door.asked).toEqual([]);
    expect((await pair({ origin: line.origin })).json()).toMatchObject({ ok: true });
    expect((await pair({ origin: line.origin })).json()).toEqual({
      ok: false,
      problem: { kind: 'refused', code: 'pairing.wrong-code' },
    });
    expect(line.door.asked).toHaveLength(1);
  });

  it.each([{}, { code: 7 }, { code: 'x'.repeat(2000) }, [], null])('takes %j for no code', async (body) => {
    const answer = await told(line, '/pairing', { headers: { origin: line.origin }, body });
    expect([400, 413]).toContain(answer.status);
    expect(line.door.asked).toEqual([]);
  });

  it('tells nothing of an error inside the desk', async () => {
    const log = vi.spyOn(console, 'error').mockReturnValue(undefined);
    const answer = await told(line, '/call/desk.throws', { headers: asStation(), body: {} });
    expect(log).toHaveBeenCalledOnce();
    log.mockRestore();
    expect([answer.status, answer.json()]).toEqual([
      500,
      { ok: false, problem: { kind: 'broken', code: 'desk.failed' } },
    ]);
  });
});

describe('a downgrade', () => {
  it.each(['TLSv1', 'TLSv1.1', 'TLSv1.2'] as const)('to %s is refused', async (maxVersion) => {
    const ciphers = 'DEFAULT:@SECLEVEL=0';
    await expect(told(line, '/', { tls: { minVersion: 'TLSv1', maxVersion, ciphers } })).rejects.toThrow(
      /protocol version|unsupported protocol/,
    );
  });

  it('to plain HTTP reaches neither calls, pairing, stream nor window', async () => {
    for (const path of ['/call/table.weigh', '/entry', '/pairing', '/station', '/'])
      expect(await knockPlain(line, call({}, '{}', `POST ${path}`))).toMatch(
        /^HTTP\/1\.1 403[^]*line\.not-secure/,
      );
    for (const path of ['/events', '/assets/index.js', '/index.html', '/station']) {
      const heard = await knockPlain(line, call({}, '', `GET ${path}`));
      expect(heard.toLowerCase()).toContain(`location: ${line.origin}${path}\r\n`);
      expect(heard).toMatch(/\r\n\r\n$/);
    }
    expect(line.door.calls).toEqual([]);
  });

  it.each(['evil.example', 'localhost', '127.0.0.1:80'])('sends nobody to %s', async (host) => {
    const heard = await knockPlain(line, call({ host }, '', 'GET /table'));
    expect(statusOf(heard)).toBe(403);
    expect(heard.toLowerCase()).not.toContain('location:');
  });
});

describe('a device refuses', () => {
  it('the certificate of another shop', async () => {
    const { root } = await makeAuthority('Elsewhere', new Date());
    await expect(told({ ...line, root }, '/')).rejects.toThrow(/self-signed certificate|unable to get/);
  });

  it('an expired certificate, which the desk replaces by itself', async () => {
    const book = join(mkdtempSync(join(tmpdir(), 'gambrel-expired-')), 'shop.gambrel');
    writeFileSync(book, '');
    const before = new Date(Date.now() - 400 * DAY);
    const authority = await openAuthority(book, '', before);
    const old = await openLine({ authority });
    const names = { host: HOST, addresses: [old.address] };
    const root = `-----BEGIN CERTIFICATE-----\n${Buffer.from(authority.root).toString('base64')}\n-----END CERTIFICATE-----`;
    await old.line.serve(names, before);
    await expect(told({ ...old, root }, '/')).rejects.toThrow(/certificate has expired/);
    await old.line.serve(names, new Date());
    expect((await told({ ...old, root }, '/')).status).toBe(200);
    old.close();
  });
});

describe('lines that say little', () => {
  /** The time after which the line was closed, ms. */
  async function closedAfter(open: (line: OpenLine) => Promise<string>): Promise<number> {
    const started = performance.now();
    await open(line);
    return performance.now() - started;
  }
  const LONG = 20_000;
  const HELLO = Uint8Array.from([0x16, 3, 1, 2, 0, 1, 0, 1, 0xfc, 3, 3]);

  it.each<[string, (line: OpenLine) => Promise<string>]>([
    ['nothing', (to) => knockPlain(to, '', LONG)],
    ['half of a handshake', (to) => knockPlain(to, HELLO, LONG)],
    ['half of a plain request', (to) => knockPlain(to, 'GET / HT', LONG)],
    ['half of the headers', (to) => knock(to, 'GET / HTTP/1.1\r\nhost:', LONG)],
    [
      'half of a body',
      (to) => knock(to, call({ 'content-length': '10', connection: 'keep-alive' }, '{}'), LONG),
    ],
    ['no request', (to) => knock(to, '', LONG)],
  ])('are closed: %s', async (_what, open) => {
    expect(await closedAfter(open)).toBeLessThan(LONG / 2);
  });

  it('are closed: one byte after another', async () => {
    const text = call({ 'x-padding': 'x'.repeat(5000) });
    const slow = new Promise<void>((resolve) => {
      const socket = connectSecurely({ host: line.address, port: line.port, ca: line.root });
      let at = 0;
      const drip = setInterval(() => socket.write(text[(at += 1)] ?? ''), 50);
      socket.on('error', () => undefined); // the line is closed, which is being tested
      socket.on('close', () => {
        clearInterval(drip);
        resolve();
      });
    });
    await slow;
    expect(line.door.calls).toEqual([]);
  });

  it('do not keep a station out, however many there are', async () => {
    const held: Socket[] = [];
    const patient = await openLine(); // the usual patience: the lines stay open during the test
    for (const text of ['', HELLO, 'GET / HT'])
      for (let count = 0; count < 150; count += 1) {
        const socket = connect(patient.port, patient.address, () => socket.write(text));
        socket.on('error', () => undefined); // the oldest are closed
        held.push(socket);
      }
    const answer = await told(patient, '/call/table.weigh', { headers: asStation(), body: {} });
    expect(answer.status).toBe(200);
    for (const socket of held) socket.destroy();
    patient.close();
  });

  it('are refused as noise: what is neither TLS nor HTTP', async () => {
    expect(await knockPlain(line, Uint8Array.from([0, 1, 2, 3, 255]))).toMatch(/^HTTP\/1\.1 400/);
    expect(await knockPlain(line, Uint8Array.from([0x16, 0xff, 0xff, 0xff, 0xff, 1, 2, 3]))).not.toMatch(
      /HTTP/,
    );
    expect(statusOf(await knock(line, Uint8Array.from([0, 1, 2, 3, 255])))).toBe(400);
  });
});
