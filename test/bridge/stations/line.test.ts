/** The line for stations between real sockets: what it serves over TLS, and what without. */
import { X509Certificate } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openStationLine } from '../../../src/bridge/stations/line.ts';
import { CODE, SECRET, TABLE } from './echo-door.ts';
import { ask, asStation, HOST, knock, knockPlain, openLine, told, type OpenLine } from './open-line.ts';

let line: OpenLine;
beforeAll(async () => {
  line = await openLine();
});
afterAll(() => line.close());
beforeEach(() => {
  line.door.calls.length = 0;
  line.door.registered.length = 0;
});

describe('over TLS', () => {
  it('serves the window with a policy that lets a station send to every address of the desk', async () => {
    const page = await told(line, '/');
    expect([page.status, page.body]).toEqual([200, '<!doctype html><title>Gambrel</title>']);
    expect(page.headers['content-security-policy']).toBe(
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; " +
        `connect-src 'self' https://*:${line.port}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; ` +
        "worker-src 'self'; manifest-src 'self'",
    );
    expect(page.headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'cache-control': 'no-store' });
  });

  it('is reached by name too', async () => {
    const page = await told(line, '/assets/index.js', {
      headers: { host: `${HOST}:${line.port}` },
      tls: { servername: HOST },
    });
    expect(page.status).toBe(200);
  });

  it('pairs a device: asks with its page, address and browser, and gets the secret', async () => {
    const fresh = await openLine();
    const headers = { origin: fresh.origin, 'user-agent': 'Tablet' };
    const asked = await told(fresh, '/pairing', { headers, body: { code: CODE } });
    expect(asked.json()).toEqual({ ok: true, value: { request: 'r-1', number: '47' } });
    expect(fresh.door.asked).toEqual([{ agent: 'Tablet', address: fresh.address, origin: fresh.origin }]);
    const outcome = await told(fresh, '/pairing/outcome', { headers, body: { request: 'r-1' } });
    expect(outcome.json()).toEqual({ ok: true, value: { state: 'allowed', station: TABLE, secret: SECRET } });
    fresh.close();
  });

  it('carries a call with opening and person', async () => {
    const headers = asStation({ 'gambrel-opening': 'o-1', 'gambrel-person': 'p-1', origin: line.origin });
    const answer = await told(line, '/call/table.weigh', { headers, body: { grams: 1 } });
    expect(answer.json()).toEqual({ ok: true, value: { name: 'table.weigh', input: { grams: 1 } } });
    expect(line.door.calls).toEqual([
      { name: 'table.weigh', input: { grams: 1 }, opening: 'o-1', person: 'p-1' },
    ]);
  });

  it('carries what an outbox holds, also of a station that is shut out, and compares its lines', async () => {
    const fresh = await openLine();
    const headers = asStation({ 'gambrel-held': '4 1 2 0' });
    const lines = [{ line: '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b01', last: 3 }];
    const compared = await told(fresh, '/outbox', { headers, body: { lines } });
    expect(compared.json()).toMatchObject({
      ok: true,
      value: { lines: [{ ...lines[0], has: 3 }].map(({ line, has }) => ({ line, has })) },
    });
    await told(fresh, '/station', { headers: asStation({ 'gambrel-held': '4 1 2' }), body: {} });
    fresh.door.remove(SECRET);
    expect((await told(fresh, '/station', { headers, body: {} })).status).toBe(401);
    const held = { waiting: 4, unanswered: 1, ofOtherBook: 2, left: 0 };
    expect(fresh.door.held).toEqual([held, held]);
    const odd = await told(fresh, '/outbox', {
      headers: asStation(),
      body: { lines: [{ line: '../x', last: -1 }] },
    });
    expect(odd.status).toBe(401);
    fresh.close();
  });

  it('carries an entry of an outbox, the entrance, and people', async () => {
    const post = (path: string, body: unknown) => told(line, path, { headers: asStation(), body });
    expect((await post('/entry', { number: 7 })).json()).toMatchObject({ taken: true, number: 7 });
    expect((await post('/station', {})).json()).toMatchObject({
      ok: true,
      value: { state: 'open', opening: 'o-1' },
    });
    expect((await post('/person', { initials: 'MK', pin: '4711' })).json()).toMatchObject({
      value: { person: 'p-1' },
    });
    expect((await post('/person', { initials: 'MK', pin: '1' })).json()).toEqual({
      ok: false,
      problem: { kind: 'refused', code: 'person.wrong-pin', with: { left: 4 } },
    });
    expect((await post('/person/out', { person: 'p-1' })).status).toBe(200);
  });

  it('streams what the desk tells, and then ends the line of a removed station', async () => {
    const fresh = await openLine();
    const stream = await ask(fresh, '/events', { headers: asStation() });
    const heard = listen(stream);
    await expect.poll(heard).toContain(': listening');
    fresh.door.tell(SECRET, { kind: 'changed', stale: null, opening: 'o-1' });
    await expect
      .poll(heard)
      .toContain('event: changed\ndata: {"kind":"changed","stale":null,"opening":"o-1"}\n\n');
    const waiting = told(fresh, '/call/desk.waits', { headers: asStation(), body: {} });
    await expect.poll(() => fresh.door.calls.length).toBe(1);
    fresh.door.remove(SECRET);
    await expect(waiting).rejects.toThrow(/socket hang up|ECONNRESET/);
    await expect.poll(heard).toContain('event: shut\ndata: {"kind":"shut","state":"removed"}');
    await expect.poll(() => stream.socket.destroyed).toBe(true);
    const answer = await told(fresh, '/call/table.weigh', { headers: asStation(), body: {} });
    expect(answer.status).toBe(401);
    expect(answer.json()).toEqual({ ok: false, problem: { kind: 'refused', code: 'station.removed' } });
    await expect.poll(fresh.door.watchers).toBe(0);
    fresh.close();
  });

  it('tells a station that is let in again while its former line still ends', async () => {
    const fresh = await openLine();
    // Its socket stays open a moment after the last event, as a browser's does.
    const head = [`GET /events HTTP/1.1`, `host: ${fresh.host}`, `authorization: Bearer ${SECRET}`];
    const former = knock(fresh, `${head.join('\r\n')}\r\n\r\n`);
    await expect.poll(fresh.door.watchers).toBe(1);
    fresh.door.tell(SECRET, { kind: 'shut', state: 'paused' });
    const stream = await ask(fresh, '/events', { headers: asStation() });
    const heard = listen(stream);
    fresh.door.tell(SECRET, { kind: 'station', station: TABLE, addresses: [] });
    await expect.poll(heard).toContain('event: station');
    expect(await former).toMatch(/event: shut(?!.*event: station)/s);
    // The end of the former line is not that of the new one.
    fresh.door.tell(SECRET, { kind: 'shut', state: 'removed' });
    await expect.poll(() => stream.socket.destroyed).toBe(true);
    fresh.close();
  });

  it('lets the page of a former address send its entries, once that is registered', async () => {
    const former = `https://192.168.1.5:${line.port}`;
    const preflight = {
      method: 'OPTIONS',
      headers: { origin: former, 'access-control-request-method': 'POST' },
    };
    expect((await told(line, '/entry', preflight)).status).toBe(403);
    line.door.registered.push(former);
    const allowed = await told(line, '/entry', preflight);
    expect(allowed.status).toBe(204);
    expect(allowed.headers).toMatchObject({
      'access-control-allow-origin': former,
      'access-control-allow-methods': 'GET, POST, PUT',
      'access-control-allow-headers':
        'authorization, content-type, gambrel-opening, gambrel-person, gambrel-held',
      vary: 'origin',
    });
    const sent = await told(line, '/entry', { headers: asStation({ origin: former }), body: { number: 1 } });
    expect([sent.status, sent.headers['access-control-allow-origin']]).toEqual([200, former]);
    const refused = await told(line, '/entry', { headers: { origin: former }, body: { number: 1 } });
    expect([refused.status, refused.headers['access-control-allow-origin']]).toEqual([401, former]);
  });

  it('does not pair on the page of a former address', async () => {
    const former = `https://192.168.1.5:${line.port}`;
    line.door.registered.push(former);
    const answer = await told(line, '/pairing', { headers: { origin: former }, body: { code: CODE } });
    expect([answer.status, line.door.asked]).toEqual([403, []]);
  });
});

describe('without TLS', () => {
  const get = (path: string, more = '') =>
    knockPlain(line, `GET ${path} HTTP/1.1\r\nhost: ${line.host}\r\n${more}\r\n`);

  it('explains how to trust the shop, with the fingerprints to compare', async () => {
    const page = await get('/');
    expect(page).toMatch(/^HTTP\/1\.1 200/);
    expect(page).toContain('Connect this device to Oak Ridge');
    const { sha256, sha1 } = line.authority.fingerprints;
    const shown = page.replaceAll(/<\/?span>/g, '');
    for (const number of [sha256, sha1]) expect(shown).toContain(`<dd>${number}</dd>`);
    expect(page).not.toMatch(/<script|<img|src=/);
  });

  it('speaks the language of the browser', async () => {
    expect(await get('/', 'accept-language: fr-FR,fr;q=0.9\r\n')).toContain('<html lang="fr-CA">');
    expect(await get('/?language=es-MX', 'accept-language: fr\r\n')).toContain('<html lang="es-MX">');
    expect(await get('/?language=xx"><b>')).toContain('<html lang="en-US">');
  });

  it('opens the steps of the device', async () => {
    const page = await get('/', 'user-agent: Mozilla/5.0 (Linux; Android 15)\r\n');
    expect(page.match(/<details open>\n<summary>(.*)</)?.[1]).toBe('Android');
    expect(page.match(/<details open>/g)).toHaveLength(1);
  });

  it.each([
    ['/gambrel.cer', 'application/x-x509-ca-cert'],
    ['/gambrel.crt', 'application/octet-stream'],
  ])('gives the root as %s', async (path, type) => {
    const answer = await get(path);
    expect(answer.toLowerCase()).toContain(`content-type: ${type}`);
    const body = Buffer.from(answer.slice(answer.indexOf('\r\n\r\n') + 4), 'latin1');
    expect(new X509Certificate(body).fingerprint256).toBe(line.authority.fingerprints.sha256);
  });

  it('sends every other address on to TLS', async () => {
    expect((await get('/table?x=1')).toLowerCase()).toContain(`location: ${line.origin}/table?x=1\r\n`);
    expect((await get('//evil.example/')).toLowerCase()).toContain(
      `location: ${line.origin}//evil.example/\r\n`,
    );
  });
});

describe('the port', () => {
  it('is never another one when it is taken', async () => {
    const more = { authority: line.authority, door: line.door, windowFolder: '', shop: '', port: line.port };
    const second = await openStationLine(more);
    const names = { host: HOST, addresses: [line.address] };
    await expect(second.serve(names, new Date())).rejects.toMatchObject({
      problem: { kind: 'conflict', code: 'line.port-taken', with: { port: line.port } },
    });
    second.close();
    expect((await told(line, '/')).status).toBe(200);
  });

  it('is not opened at an address that this computer does not have, and stays open at the others', async () => {
    const names = { host: HOST, addresses: [line.address, '192.168.254.254'] };
    await expect(line.line.serve(names, new Date())).rejects.toMatchObject({
      problem: { code: 'line.no-address' },
    });
    expect((await told(line, '/')).status).toBe(200);
  });

  // macOS has no second address without setting one up.
  it.skipIf(process.platform === 'darwin')(
    'moves to a new address: open lines live on, new ones get a leaf that names it',
    async () => {
      const fresh = await openLine();
      const stream = await ask(fresh, '/events', { headers: asStation() });
      const heard = listen(stream);
      const moved = { ...fresh, address: '127.0.0.2', host: `127.0.0.2:${fresh.port}` };
      await fresh.line.serve({ host: HOST, addresses: [moved.address] }, new Date());
      fresh.door.tell(SECRET, { kind: 'changed', stale: null, opening: null });
      await expect.poll(heard).toContain('event: changed');
      expect((await told(moved, '/')).status).toBe(200);
      await expect(told(fresh, '/')).rejects.toThrow(/ECONNREFUSED/);
      expect((await told(moved, '/', { headers: { host: fresh.host } })).status).toBe(403);
      fresh.close();
    },
  );

  it('ends every line when it is switched off, streams and half-open ones too', async () => {
    const fresh = await openLine();
    const stream = await ask(fresh, '/events', { headers: asStation() });
    const ended = new Promise((resolve) => stream.once('error', resolve));
    const plain = knockPlain(fresh, 'GET / HT', 60_000);
    const silent = knockPlain(fresh, '', 60_000);
    await new Promise((resolve) => setTimeout(resolve, 100));
    fresh.close();
    await Promise.all([ended, plain, silent]);
    await expect(told(fresh, '/')).rejects.toThrow(/ECONNREFUSED/);
    await expect.poll(fresh.door.watchers).toBe(0);
  });
});

/** What a stream has said so far. */
function listen(stream: IncomingMessage): () => string {
  let heard = '';
  stream.on('data', (piece: Buffer) => (heard += piece.toString()));
  stream.on('error', () => undefined); // the line's end is being tested
  return () => heard;
}
