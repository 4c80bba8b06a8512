/** A client without a session cannot delay those with one, neither by one request nor by many connections. */
import { connect, type Socket } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { knock, openCounter, type Counter } from './counter.ts';

/**
 * Maximum delay of a window, ms, on a machine that is busy with other tests; the stalls under test last many seconds
 * or forever.
 */
const QUICK = 1_500;
const MANY = 600;

let counter: Counter;
let session: string;
const lines: Socket[] = [];
beforeEach(async () => {
  counter = await openCounter();
  session = await counter.session();
});
afterEach(async () => {
  lines.splice(0).forEach((line) => line.destroy());
  await counter.close();
});

/** A call of an authenticated window over a new connection, as a browser makes it when all others are closed. */
async function callTakes(): Promise<number> {
  const started = performance.now();
  const text = head('POST /call/shop.get', { authorization: `Bearer ${session}`, connection: 'close' }, '{}');
  const answer = await knock(counter.carrier.port, text, 10_000);
  expect(answer.status).toBe(200);
  return performance.now() - started;
}

/** The time in which a page loads and authenticates by a new address. */
async function openingTakes(): Promise<number> {
  const started = performance.now();
  for (const path of ['/', '/assets/index.js'])
    expect(
      (await knock(counter.carrier.port, head(`GET ${path}`, { connection: 'close' }), 10_000)).status,
    ).toBe(200);
  const body = JSON.stringify({ code: counter.code() });
  const answer = await knock(
    counter.carrier.port,
    head('POST /session', { connection: 'close' }, body),
    10_000,
  );
  expect(answer.status).toBe(200);
  return performance.now() - started;
}

function head(line: string, headers: Record<string, string>, body = ''): string {
  const all = {
    host: `127.0.0.1:${counter.carrier.port}`,
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(body)),
    ...headers,
  };
  const rows = Object.entries(all).map(([name, value]) => `${name}: ${value}`);
  return `${line} HTTP/1.1\r\n${rows.join('\r\n')}\r\n\r\n${body}`;
}

async function hold(text: string, count = MANY): Promise<void> {
  const one = () =>
    new Promise<void>((resolve) => {
      const line = connect(counter.carrier.port, '127.0.0.1', () => {
        if (text !== '') line.write(text);
        resolve();
      });
      line.on('error', () => resolve()); // The server may close the connection, which is being tested.
      lines.push(line);
    });
  await Promise.all(Array.from({ length: count }, one));
}

describe('one request', () => {
  /** Escaped quotes: a pattern that searches for the end of a text backtracks at every one. */
  const QUOTES = `"${'\\"'.repeat(70_000)}`;

  it.each([
    ['a body of quotes without a session', () => head('POST /session', {}, QUOTES)],
    ['a body of quotes with one', () => head('POST /call/shop.get', { authorization: `Bearer ${session}` }, QUOTES)],
    ['a wide body', () => head('POST /call/shop.get', { authorization: `Bearer ${session}` }, `[${'[],'.repeat(300_000)}[]]`)],
    ['a deep body', () => head('POST /call/shop.get', { authorization: `Bearer ${session}` }, '['.repeat(1_000_000))],
    ['many names', () => head('POST /call/shop.get', { authorization: `Bearer ${session}` }, `{${Array.from({ length: 60_000 }, (_, n) => `"n${n}":1`).join()}}`)],
    ['a long address', () => head(`GET /${'a'.repeat(6_000)}`, {})],
    ['a long address of slashes and dots', () => head(`GET ${'/../'.repeat(1_500)}`, {})],
    ['a long query', () => head(`GET /?${'a=b&'.repeat(3_000)}`, {})],
    ['a long label', () => head('POST /session', { 'content-type': `application/json${' ;a="'.repeat(2_000)}` }, '{}')],
    ['a long right to call', () => head('POST /call/shop.get', { authorization: `Bearer ${'-'.repeat(12_000)} ` }, '{}')],
  ])('%s', async (_what, text) => {
    const asked = knock(counter.carrier.port, text(), 200);
    expect(await callTakes()).toBeLessThan(QUICK);
    await asked;
  }); // prettier-ignore

  it('with a long address is refused with its own status and leaves nothing in the log', async () => {
    const wrong: unknown[] = [];
    const said = console.error;
    console.error = (...words) => wrong.push(words);
    try {
      for (const line of [`GET /${'a'.repeat(6_000)}`, `POST /call/${'a'.repeat(6_000)}`]) {
        const answer = await knock(counter.carrier.port, head(line, { connection: 'close' }, '{}'));
        expect(answer.status).toBe(414);
        expect(JSON.parse(answer.body)).toMatchObject({ problem: { code: 'request.too-long' } });
      }
      // Short enough to be looked up, too long for a file name.
      const name = await knock(
        counter.carrier.port,
        head(`GET /${'a'.repeat(900)}.js`, { connection: 'close' }),
      );
      expect(name.status).toBe(404);
    } finally {
      console.error = said;
    }
    expect(wrong).toEqual([]);
  });
});

describe('many connections', () => {
  it.each([
    ['that say nothing', () => ''],
    ['that sent half of their headers', () => 'POST /session HTTP/1.1\r\nhost: 127'],
    [
      'that sent a part of a body',
      () => head('POST /session', { 'content-length': '900' }).concat('{"code":"'),
    ],
    ['that show a wrong code', () => head('POST /session', {}, '{"code":"wrong"}')],
    ['that ask for a page and stay', () => head('GET /', {})],
  ])('%s', async (_what, text) => {
    await hold(text());
    expect(await callTakes()).toBeLessThan(QUICK);
    expect(await openingTakes()).toBeLessThan(QUICK);
  });

  it('do not affect a window with a change stream and one with an idle connection', async () => {
    const kept = new Promise<Socket>((resolve) => {
      const line = connect(counter.carrier.port, '127.0.0.1', () => {
        line.write(head('POST /call/shop.get', { authorization: `Bearer ${session}` }, '{}'));
      });
      line.once('data', () => resolve(line));
      lines.push(line);
    });
    const stream = await fetch(`${counter.origin}/events`, {
      headers: { authorization: `Bearer ${session}` },
    });
    const reader = stream.body!.getReader();
    await reader.read(); // Until it listens.
    const line = await kept;
    await hold('');
    await hold(head('GET /', {}));
    counter.desk.change('table.weigh');
    expect(new TextDecoder().decode((await reader.read()).value)).toContain('table.weigh');
    expect(line.destroyed).toBe(false);
    const answered = new Promise((resolve) => line.once('data', resolve));
    line.write(head('POST /call/shop.get', { authorization: `Bearer ${session}` }, '{}'));
    expect(String(await answered)).toContain('200 OK');
    await reader.cancel();
  });

  it('are closed when refused, whether their sender closes or not', async () => {
    await hold(head('POST /call/shop.get', {}, '{}'), 20);
    await hold(head('POST /session', { 'content-length': '900' }).concat('{'), 20);
    await hold(head('POST /session', { 'content-length': '99999' }).concat('{'), 20);
    const cut = () => lines.filter(({ closed }) => closed).length;
    lines.forEach((line) => line.resume());
    await expect.poll(cut, { timeout: 3_000 }).toBe(40);
  });

  it('get no answers to many pipelined requests', async () => {
    let heard = '';
    const line = connect(counter.carrier.port, '127.0.0.1', () =>
      line.write(head('GET /assets/index.js', {}).repeat(500)),
    );
    line.on('data', (piece) => (heard += String(piece)));
    await new Promise((resolve) => line.once('close', resolve));
    expect(heard.split('200 OK').length - 1).toBeLessThan(10);
  });
});

it('refuses many wrong codes, and still accepts the right one', async () => {
  const show = async (code: string) =>
    (
      await knock(
        counter.carrier.port,
        head('POST /session', { connection: 'close' }, JSON.stringify({ code })),
      )
    ).status;
  const right = counter.code();
  const wrong: number[] = [];
  for (let count = 0; count < 12; count += 1) wrong.push(await show(`wrong${count}`));
  expect(wrong).toEqual([...Array<number>(10).fill(401), 429, 429]);
  expect(await show(right)).toBe(200);
});
