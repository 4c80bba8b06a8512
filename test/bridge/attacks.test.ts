/** Attacks on a server over a real desk and a real book: none gets data, none breaks anything. */
import { connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BODY_LIMIT } from '../../src/bridge/server/json-body.ts';
import { OPENING_HEADER } from '../../src/bridge/wire.ts';
import { freshDesk, takeIn, type FreshDesk } from '../desk/fresh-desk.ts';
import { knock, openCounter, type Counter } from './counter.ts';

/** A text in the book: an answer that contains it has leaked data. */
const SECRET = 'Marguerite Oakhurst';

let shop: FreshDesk;
let counter: Counter;
let pass: string;
/** The opening of the book that every attack names, so that none is refused only for lacking it. */
let opening: string;
beforeAll(async () => {
  shop = await freshDesk();
  await takeIn(shop, { hunter: { name: SECRET, phone: '555-0199' } });
  counter = await openCounter({ desk: shop.desk });
  pass = await counter.session();
  ({ opening } = await shop.call('shop.get', {}));
});
afterAll(async () => {
  await counter.close();
  shop.desk.close();
});

function asked(line: string, headers: Record<string, string | null>, body = ''): string {
  const all: Record<string, string | null> = {
    host: `127.0.0.1:${counter.carrier.port}`,
    'content-type': 'application/json',
    'content-length': String(Buffer.byteLength(body)),
    connection: 'close',
    [OPENING_HEADER]: opening,
    ...headers,
  };
  const head = Object.entries(all).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  return `${line} HTTP/1.1\r\n${head.join('\r\n')}\r\n\r\n${body}`;
}
const withPass = (): Record<string, string> => ({ authorization: `Bearer ${pass}` });
const hunters = 'POST /call/hunters.find';
const SEARCH = '{"text":"Marguerite"}';

it('serves an authenticated window', async () => {
  const answer = await knock(counter.carrier.port, asked(hunters, withPass(), SEARCH));
  expect(answer.body).toContain(SECRET);
});

it.each([null, '', 'another'])('gives nothing to a call that is meant for the opening %j', async (other) => {
  const headers = { ...withPass(), [OPENING_HEADER]: other };
  const answer = await knock(counter.carrier.port, asked(hunters, headers, SEARCH));
  expect(JSON.parse(answer.body)).toEqual({
    ok: false,
    problem: { kind: 'conflict', code: 'book.other-opening' },
  });
});

/** Requests that are valid except for one property, which the row names. */
const NO_WAY_IN: [string, () => string][] = [
  ['no pass and no origin, as a program on this computer', () => asked(hunters, {}, SEARCH)],
  ['a foreign host with a good pass', () => asked(hunters, { ...withPass(), host: 'shop.evil.example' }, SEARCH)],
  ['localhost by name', () => asked(hunters, { ...withPass(), host: `localhost:${counter.carrier.port}` }, SEARCH)],
  ['a host with a name in front', () => asked(hunters, { ...withPass(), host: `a@127.0.0.1:${counter.carrier.port}` }, SEARCH)],
  ['no host', () => asked(hunters, { ...withPass(), host: null }, SEARCH)],
  ['two hosts', () => asked(hunters, { ...withPass(), Host: 'evil.example' }, SEARCH)],
  ['a whole foreign address in the first line', () => asked('POST http://evil.example/call/hunters.find', withPass(), SEARCH)],
  ['a foreign origin with a good pass', () => asked(hunters, { ...withPass(), origin: 'http://evil.example' }, SEARCH)],
  ['an empty origin', () => asked(hunters, { ...withPass(), origin: '' }, SEARCH)],
  ['the right origin by another scheme', () => asked(hunters, { ...withPass(), origin: counter.origin.replace('http', 'https') }, SEARCH)],
  ['two passes', () => asked(hunters, { authorization: `Bearer ${pass}, Bearer ${pass}` }, SEARCH)],
  ['a pass with a line break folded in', () => asked(hunters, { authorization: `Bearer\r\n ${pass}` }, SEARCH)],
  ['text for JSON', () => asked(hunters, { ...withPass(), 'content-type': 'text/plain' }, SEARCH)],
  ['no kind of content', () => asked(hunters, { ...withPass(), 'content-type': null }, SEARCH)],
  ['JSON by a longer name', () => asked(hunters, { ...withPass(), 'content-type': 'application/jsonp' }, SEARCH)],
  ['two lengths', () => asked(hunters, { ...withPass(), 'Content-Length': '2' }, SEARCH)],
  ['a length and pieces', () => asked(hunters, { ...withPass(), 'transfer-encoding': 'chunked' }, SEARCH)],
  ['a negative length', () => asked(hunters, { ...withPass(), 'content-length': '-1' }, SEARCH)],
  ['half of a JSON text', () => asked(hunters, withPass(), SEARCH.slice(0, -1))],
  ['something behind the JSON text', () => asked(hunters, withPass(), `${SEARCH}{}`)],
  ['a body nested deep', () => asked(hunters, withPass(), `{"text":"Marguerite","x":${'['.repeat(400_000)}${']'.repeat(400_000)}}`)],
  ['a body nested by names', () => asked(hunters, withPass(), `${'{"a":'.repeat(50_000)}1${'}'.repeat(50_000)}`)],
  ['a body just too large', () => asked(hunters, withPass(), `{"text":"Marguerite","x":"${'x'.repeat(BODY_LIMIT)}"}`)],
  ['a prototype', () => asked(hunters, withPass(), '{"text":"Marguerite","__proto__":{"polluted":true}}')],
  ['a call by its address only', () => asked(`GET /call/hunters.find?text=Marguerite&bearer=${pass}`, {})],
  ['a tunnel', () => asked('CONNECT 127.0.0.1:22', withPass())],
  ['a change of protocol', () => asked('GET /events', { upgrade: 'websocket', connection: 'Upgrade' })],
]; // prettier-ignore

describe('an attack gets nothing and breaks nothing:', () => {
  it.each(NO_WAY_IN)('%s', async (_what, text) => {
    const answer = await knock(counter.carrier.port, text());
    // 0: the connection was closed without a response.
    expect([0, 400, 401, 403, 404, 405, 413, 415]).toContain(answer.status);
    expect(answer.body).not.toContain(SECRET);
    expect(answer.body).not.toMatch(/\.ts|\.js|node:|Error|at /);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    expect(shop.broken).toEqual([]);
  });

  it.each(['constructor', 'prototype', 'hasOwnProperty', 'toString', 'valueOf'])(
    'an input named %s, which is read as nothing',
    async (name) => {
      const body = JSON.stringify({ [name]: { prototype: { polluted: true } }, text: 'nobody' });
      const answer = await knock(counter.carrier.port, asked(hunters, withPass(), body));
      expect(answer.status).toBe(200);
      expect(JSON.parse(answer.body)).toEqual({ ok: true, value: [] });
      expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    },
  );

  it.each([
    '__proto__', 'constructor', 'prototype.polluted', 'constructor.constructor', 'hunters.__proto__', 'hunters.find.call',
    'hunters', '.', 'hunters.', '.find', 'hunters%2efind', 'hunters.find%00', 'HUNTERS.FIND', 'desk.close', 'shop.nothing', '%F0%9F%A6%8C.find',
  ])('a call named %s', async (name) => {
    const answer = await knock(counter.carrier.port, asked(`POST /call/${name}`, withPass(), '{}'));
    expect(answer.status).toBe(404);
    expect(JSON.parse(answer.body)).toEqual({ ok: false, problem: { kind: 'missing', code: 'call.unknown' } });
    expect(shop.broken).toEqual([]);
  }); // prettier-ignore

  it.each([
    'null',
    '[]',
    '7',
    '"text"',
    'true',
    '[[[[]]]]',
    '{"text":{}}',
    '{"text":["a"]}',
    '{"text":1e999}',
  ])('the input %s, which is a form or is refused', async (body) => {
    const answer = await knock(counter.carrier.port, asked(hunters, withPass(), body));
    expect(answer.status).toBe(200);
    expect(answer.body).not.toMatch(/desk\.(broken|failed)/);
    expect(shop.broken).toEqual([]);
  });
});

describe('many connections at once', () => {
  const hold = (port: number, text: string): Promise<{ socket: Socket; heard: () => string }> =>
    new Promise((resolve) => {
      const socket = connect(port, '127.0.0.1', () => {
        socket.write(text);
        resolve({ socket, heard: () => heard });
      });
      let heard = '';
      socket.on('data', (piece) => (heard += piece.toString()));
      socket.on('error', () => undefined); // The server may close the connection, which is being tested.
    });

  it('limit the change streams, refuse more with a problem, and accept a new one when one ends', async () => {
    const few = await openCounter({ desk: shop.desk, most: { anonymous: 50, windows: 50, streams: 2 } });
    const bearer = await few.session();
    const stream = () =>
      hold(
        few.carrier.port,
        `GET /events HTTP/1.1\r\nhost: 127.0.0.1:${few.carrier.port}\r\nauthorization: Bearer ${bearer}\r\n\r\n`,
      );
    const [one, two] = [await stream(), await stream()];
    await expect.poll(() => one.heard() + two.heard()).toMatch(/listening[^]*listening/);
    const third = await stream();
    await expect.poll(() => third.heard()).toContain('request.too-many');
    expect(third.heard()).toMatch(/^HTTP\/1\.1 503/);
    one.socket.destroy();
    await expect
      .poll(async () => {
        const again = await stream();
        await new Promise((resolve) => setTimeout(resolve, 50));
        return again.heard();
      })
      .toContain('listening');
    await few.close();
  });

  it('leave change streams for other windows, whatever one session opens', async () => {
    const counter = await openCounter({ desk: shop.desk });
    const { port } = counter.carrier;
    const stream = (bearer: string) =>
      hold(
        port,
        `GET /events HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\nauthorization: Bearer ${bearer}\r\n\r\n`,
      );
    const greedy = await counter.session();
    const taken = await Promise.all(Array.from({ length: 70 }, () => stream(greedy)));
    await expect
      .poll(() => taken.every(({ heard }) => /listening|request\.too-many/.test(heard())))
      .toBe(true);
    expect(taken.filter(({ heard }) => heard().includes('listening'))).toHaveLength(4);
    const other = await stream(await counter.session());
    await expect.poll(() => other.heard()).toContain('listening');
    await counter.close();
  });

  it('let a new unauthenticated connection replace the one idle longest', async () => {
    const few = await openCounter({ desk: shop.desk, most: { anonymous: 3, windows: 3, streams: 3 } });
    const { port } = few.carrier;
    const idle: Awaited<ReturnType<typeof hold>>[] = [];
    for (let count = 0; count < 3; count += 1) idle.push(await hold(port, 'POST /session HTTP/1.1\r\n'));
    const page = await knock(
      port,
      `GET / HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\nconnection: close\r\n\r\n`,
      1_000,
    );
    expect(page.status).toBe(200);
    await expect.poll(() => idle.map(({ socket }) => socket.closed)).toEqual([true, false, false]);
    await few.close();
  });

  it('cut off slow senders of header or body, and serve others meanwhile', async () => {
    const quick = await openCounter({
      desk: shop.desk,
      patience: { headersMs: 400, requestMs: 400, checkMs: 50 },
    });
    const { port } = quick.carrier;
    const head = `POST /session HTTP/1.1\r\nhost: 127.0.0.1:${port}\r\ncontent-type: application/json\r\ncontent-length: 500\r\n`;
    const slow = [await hold(port, head), await hold(port, `${head}\r\n{"code":"`)];
    const drip = setInterval(() => slow.forEach(({ socket }) => socket.write('a')), 30);
    expect((await fetch(quick.origin)).status).toBe(200);
    await expect.poll(() => slow.map(({ heard }) => /request\.too-slow/.test(heard()))).toEqual([true, true]);
    clearInterval(drip);
    slow.forEach(({ socket }) => socket.destroy());
    await quick.close();
  });
});
