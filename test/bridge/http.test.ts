/** The loopback server: its answers to its own window, and every invalid request that it must refuse. */
import { createServer } from 'node:net';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { readEvents } from '../../src/bridge/client/event-stream.ts';
import { BODY_LIMIT } from '../../src/bridge/server/json-body.ts';
import { WINDOW_POLICY } from '../../src/bridge/server/window-files.ts';
import { knock, openCounter, type Counter } from './counter.ts';

let counter: Counter;
let pass: string;
beforeAll(async () => {
  counter = await openCounter();
  pass = await counter.session();
});
afterAll(() => counter.close());

/** A request as text; every header can be replaced, or omitted with null. */
function request(line: string, headers: Record<string, string | null> = {}, body = ''): string {
  const all: Record<string, string | null> = {
    host: `127.0.0.1:${counter.carrier.port}`,
    authorization: `Bearer ${pass}`,
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(body)),
    connection: 'close',
    ...headers,
  };
  const head = Object.entries(all).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  return `${line} HTTP/1.1\r\n${head.join('\r\n')}\r\n\r\n${body}`;
}

describe('an authenticated window', () => {
  it('carries a call and its answer', async () => {
    const input = { animalId: 7, typed: '18 lb 6 oz' };
    const answer = await knock(
      counter.carrier.port,
      request('POST /call/table.weigh', {}, JSON.stringify(input)),
    );
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body)).toEqual({ ok: true, value: { name: 'table.weigh', input } });
  });

  it("gets the desk's refusals as answers, not as failed requests", async () => {
    const answer = await knock(counter.carrier.port, request('POST /call/desk.refuses', {}, '{}'));
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.body)).toEqual({ ok: false, problem: { kind: 'refused', code: 'trade.rule' } });
  });

  it('gets a session for a code, once, and another for another code', async () => {
    const code = counter.code();
    const show = () => knock(counter.carrier.port, request('POST /session', {}, JSON.stringify({ code })));
    const first = await show();
    expect(first.status).toBe(200);
    expect((await show()).status).toBe(401);
    const another = await counter.session();
    for (const bearer of [pass, (JSON.parse(first.body) as { bearer: string }).bearer, another]) {
      const answer = await knock(
        counter.carrier.port,
        request('POST /call/shop.get', { authorization: `Bearer ${bearer}` }, '{}'),
      );
      expect(answer.status).toBe(200);
    }
    expect(new Set([pass, first.body, another]).size).toBe(3);
  });

  it("gets the window's files with the strict policy and content types, by GET and HEAD", async () => {
    const page = await fetch(`${counter.origin}/`);
    expect(await page.text()).toContain('<title>Gambrel</title>');
    expect(page.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(page.headers.get('content-security-policy')).toBe(WINDOW_POLICY);
    expect(page.headers.get('x-content-type-options')).toBe('nosniff');
    expect(page.headers.get('cache-control')).toBe('no-store');
    expect(WINDOW_POLICY).not.toMatch(/unsafe|\*|https?:/);
    const script = await fetch(`${counter.origin}/assets/index.js?v=1`);
    expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    // Its name changes with what it holds.
    expect(script.headers.get('cache-control')).toBe('private, max-age=31536000, immutable');
    const head = await fetch(`${counter.origin}/`, { method: 'HEAD' });
    expect([head.status, await head.text()]).toEqual([200, '']);
  });

  it('gets a change stream, whose listener is removed when the window closes', async () => {
    const before = counter.desk.listeners();
    const stop = new AbortController();
    const response = await fetch(`${counter.origin}/events`, {
      headers: { authorization: `Bearer ${pass}` },
      signal: stop.signal,
    });
    expect(response.headers.get('content-type')).toContain('text/event-stream');
    await expect.poll(() => counter.desk.listeners()).toBe(before + 1);
    const heard: unknown[] = [];
    const reading = readEvents(response.body!, (event) => heard.push(event));
    counter.desk.change('table.weigh');
    counter.desk.change('intake.takeIn');
    await expect
      .poll(() => heard)
      .toEqual([
        { event: 'changed', data: '{"call":"table.weigh","stale":null,"opening":"first"}' },
        { event: 'changed', data: '{"call":"intake.takeIn","stale":null,"opening":"first"}' },
      ]);
    stop.abort();
    await expect(reading).rejects.toThrow();
    await expect.poll(() => counter.desk.listeners()).toBe(before);
  });
});

/** Each row: what is invalid, the request, the status, the problem's code. */
const WRONG: [string, () => string, number, string][] = [
  ['no pass', () => request('POST /call/shop.get', { authorization: null }, '{}'), 401, 'session.unknown'],
  ['a guessed pass', () => request('POST /call/shop.get', { authorization: 'Bearer x' }, '{}'), 401, 'session.unknown'],
  ['a code as a pass', () => request('POST /call/shop.get', { authorization: `Bearer ${counter.code()}` }, '{}'), 401, 'session.unknown'],
  ['another way of signing in', () => request('POST /call/shop.get', { authorization: `Basic ${pass}` }, '{}'), 401, 'session.unknown'],
  ['the pass in the address', () => request(`GET /events?bearer=${pass}`, { authorization: null }), 401, 'session.unknown'],
  ['a wrong code', () => request('POST /session', {}, '{"code":"wrong"}'), 401, 'session.wrong-code'],
  ['a code of the right length', () => request('POST /session', {}, JSON.stringify({ code: 'A'.repeat(43) })), 401, 'session.wrong-code'],
  ['a code that is no text', () => request('POST /session', {}, '{"code":[1]}'), 401, 'session.wrong-code'],
  ['no code at all', () => request('POST /session', {}, 'null'), 401, 'session.wrong-code'],
  ['a foreign name for this address', () => request('POST /call/shop.get', { host: 'evil.example' }, '{}'), 403, 'request.wrong-host'],
  ['a foreign name, for the page', () => request('GET /', { host: `evil.example:${counter.carrier.port}` }), 403, 'request.wrong-host'],
  ['another port', () => request('POST /call/shop.get', { host: '127.0.0.1:1' }, '{}'), 403, 'request.wrong-host'],
  ['another page calling', () => request('POST /call/shop.get', { origin: 'https://evil.example' }, '{}'), 403, 'request.wrong-origin'],
  ['a page whose name begins like ours', () => request('POST /call/shop.get', { origin: `${counter.origin}.evil.example` }, '{}'), 403, 'request.wrong-origin'],
  ['a page without an origin of its own', () => request('POST /session', { origin: 'null' }, '{}'), 403, 'request.wrong-origin'],
  ['another page listening', () => request('GET /events', { origin: 'http://localhost:3000' }), 403, 'request.wrong-origin'],
  ['text instead of JSON', () => request('POST /call/shop.get', { 'content-type': 'text/plain' }, '{}'), 415, 'request.not-json'],
  ['a form', () => request('POST /session', { 'content-type': 'application/x-www-form-urlencoded' }, 'code=1'), 415, 'request.not-json'],
  ['broken JSON', () => request('POST /call/shop.get', {}, '{"a":'), 400, 'request.malformed'],
  ['an empty body', () => request('POST /call/shop.get', {}, ''), 400, 'request.malformed'],
  ['a body of a call before there is a session', () => request('POST /session', {}, JSON.stringify({ code: 'x'.repeat(2_000) })), 413, 'request.too-large'],
  ['no body and no label', () => request('POST /session', { 'content-type': null }), 415, 'request.not-json'],
  ['a whole address with another host', () => request('GET http://evil.example/'), 400, 'request.malformed'],
  ['a prototype in the input', () => request('POST /call/shop.get', {}, '{"a":{"__proto__":{"confirmed":true}}}'), 400, 'request.malformed'],
  ['a prototype in disguise', () => request('POST /call/shop.get', {}, '{"\\u005f_proto__":1}'), 400, 'request.malformed'],
  ['a body too large by its label', () => request('POST /call/shop.get', { 'content-length': String(BODY_LIMIT + 1) }, '{'), 413, 'request.too-large'],
  ['an inherited name: __proto__', () => request('POST /call/__proto__', {}, '{}'), 404, 'call.unknown'],
  ['an inherited name: constructor', () => request('POST /call/constructor', {}, '{}'), 404, 'call.unknown'],
  ['an inherited name: toString', () => request('POST /call/toString', {}, '{}'), 404, 'call.unknown'],
  ['a name that is a path', () => request('POST /call/..%2f..%2fsession', {}, '{}'), 404, 'call.unknown'],
  ['no name', () => request('POST /call/', {}, '{}'), 404, 'call.unknown'],
  ['a call that the desk does not have', () => request('POST /call/desk.lacks', {}, '{}'), 404, 'call.unknown'],
  ['reading a call', () => request('GET /call/shop.get'), 405, 'request.wrong-method'],
  ['writing to the stream', () => request('POST /events', {}, '{}'), 405, 'request.wrong-method'],
  ['deleting a file', () => request('DELETE /index.html'), 405, 'request.wrong-method'],
  ['asking for rights beforehand', () => request('OPTIONS /call/shop.get', { origin: counter.origin }), 405, 'request.wrong-method'],
]; // prettier-ignore

describe('a refused request', () => {
  it.each(WRONG)('%s', async (_what, text, status, code) => {
    const calls = counter.desk.calls.length;
    const answer = await knock(counter.carrier.port, text());
    expect(answer.status).toBe(status);
    expect(JSON.parse(answer.body)).toMatchObject({ ok: false, problem: { code } });
    expect(answer.body).not.toMatch(/\.ts|\.js|node:|Error/);
    const reached = counter.desk.calls.slice(calls).map(({ name }) => name);
    expect(reached.filter((name) => name !== 'desk.lacks')).toEqual([]);
  });

  it('never gets permission to read across origins', async () => {
    const answer = await knock(counter.carrier.port, request('GET /', { origin: counter.origin }));
    expect(answer.status).toBe(200);
    expect(answer.head).not.toContain('access-control');
  });

  it.each([
    '/../secret.json',
    '/..%2fsecret.json',
    '/%2e%2e/secret.json',
    '/%2e%2e%2fsecret.json',
    '/assets/../../secret.json',
    '/assets/..%2f..%2fsecret.json',
    '//../secret.json',
    '/..\\secret.json',
    '/%00/secret.json',
    '/index.html%00.js',
    '/%zz',
    '/assets',
    '/assets/',
    '/assets/notes.txt',
    '/nothing.js',
    '/index.html/x.js',
    'http://evil.example/index.html',
  ])('the file %s', async (path) => {
    const answer = await knock(counter.carrier.port, request(`GET ${path}`));
    expect([400, 404]).toContain(answer.status);
    expect(answer.body).not.toContain('secret');
    expect(answer.head).toContain('content-security-policy');
  });

  it('has a body that grows too large without a length', async () => {
    const chunk = `10000\r\n${'x'.repeat(0x10000)}\r\n`.repeat(BODY_LIMIT / 0x10000 + 1);
    const headers = { 'content-length': null, 'transfer-encoding': 'chunked' };
    const answer = await knock(counter.carrier.port, request('POST /call/shop.get', headers, chunk));
    expect(answer.status).toBe(413);
    expect(JSON.parse(answer.body).problem.code).toBe('request.too-large');
  });

  it('has bytes that are no text', async () => {
    const answer = await fetch(`${counter.origin}/call/shop.get`, {
      method: 'POST',
      headers: { authorization: `Bearer ${pass}`, 'content-type': 'application/json' },
      body: new Uint8Array([0x22, 0xff, 0x22]),
    });
    expect([answer.status, await answer.json()]).toMatchObject([
      400,
      { problem: { code: 'request.malformed' } },
    ]);
  });

  it('is not HTTP', async () => {
    const answer = await knock(counter.carrier.port, 'hello there\r\n\r\n');
    expect(answer.status).toBe(400);
    expect(JSON.parse(answer.body).problem.code).toBe('request.malformed');
  });

  it('has endless headers', async () => {
    const answer = await knock(counter.carrier.port, request('GET /', { 'x-long': 'x'.repeat(40_000) }));
    expect(answer.status).toBe(431);
  });
});

it('keeps the details of a failure in its own log', async () => {
  const log = vi.spyOn(console, 'error').mockReturnValue();
  const answer = await knock(counter.carrier.port, request('POST /call/desk.throws', {}, '{}'));
  expect(answer.status).toBe(200);
  expect(JSON.parse(answer.body)).toEqual({ ok: false, problem: { kind: 'broken', code: 'desk.failed' } });
  expect(String(log.mock.calls)).toContain('secret detail');
  log.mockRestore();
});

it('disconnects a window that sends too slowly', async () => {
  const quick = await openCounter({ patience: { headersMs: 300, requestMs: 300, checkMs: 50 } });
  const port = quick.carrier.port;
  const head = `POST /session HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\ncontent-type: application/json\r\n`;
  for (const text of [head, `${head}content-length: 20\r\n\r\n{"co`]) {
    const answer = await knock(port, text);
    expect(answer.status).toBe(408);
    expect(JSON.parse(answer.body).problem.code).toBe('request.too-slow');
  }
  await quick.close();
});

it('takes the next free port when the preferred one is in use, and only on 127.0.0.1', async () => {
  const other = createServer();
  await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
  const taken = (other.address() as { port: number }).port;
  const next = await openCounter({ port: taken });
  expect(next.carrier.port).toBeGreaterThan(taken);
  expect(next.carrier.newAddress()).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/#code=[\w-]{43}$/);
  await next.close();
  await new Promise((resolve) => other.close(resolve));
});

it('releases its port and its streams when closed', async () => {
  const short = await openCounter();
  const bearer = await short.session();
  const stream = await fetch(`${short.origin}/events`, { headers: { authorization: `Bearer ${bearer}` } });
  await short.close();
  await expect(stream.text()).rejects.toThrow();
  await expect(fetch(short.origin)).rejects.toThrow();
  expect(short.desk.listeners()).toBe(0);
});
