/** The client of the browser window, against a running server: sessions, reloads, broken connections. */
import { afterEach, expect, it } from 'vitest';
import { bridgeOverHttp, type HttpPlace } from '../../src/bridge/client/http.ts';
import { readEvents, type StreamEvent } from '../../src/bridge/client/event-stream.ts';
import { DESK_GONE } from '../../src/bridge/client/port.ts';
import type { Bridge, CallName } from '../../src/bridge/contract.ts';
import { openCounter, type Counter } from './counter.ts';

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

async function counterAt(port = 0): Promise<Counter> {
  const counter = await openCounter({ port });
  closing.push(() => counter.close());
  return counter;
}

/** A window: its storage survives a reload, its code does not. */
function windowAt(
  origin: string,
  code: string | null,
  kept = new Map<string, string>(),
  askOthers: () => Promise<string | null> = async () => null,
) {
  const left = new AbortController();
  let line = new AbortController();
  closing.unshift(async () => left.abort());
  const place: HttpPlace = {
    fetch: (path, init) =>
      fetch(new URL(String(path), origin), {
        ...init,
        signal: AbortSignal.any([line.signal, ...(init?.signal ? [init.signal] : [])]),
      }),
    store: {
      getItem: (name) => kept.get(name) ?? null,
      setItem: (name, value) => void kept.set(name, value),
      removeItem: (name) => void kept.delete(name),
    },
    code,
    askOthers,
    seen: () => (left.signal.aborted ? new Promise(() => undefined) : Promise.resolve()),
    hidden: () => left.signal,
    wait: () => new Promise((resolve) => setTimeout(resolve, 20)),
  };
  /** Closes every connection of this window, as a closed laptop does; it can open new ones. */
  const cut = () => {
    const old = line;
    line = new AbortController();
    old.abort();
  };
  return { bridge: bridgeOverHttp(place), kept, cut };
}

const call = (bridge: Bridge, name: string, input: unknown = {}, opening: string | null = null) =>
  bridge.call(name as CallName, input as never, opening, 'en-US');

it('uses its code once, however many calls start together, and then calls with its session', async () => {
  const counter = await counterAt();
  const { bridge } = windowAt(counter.origin, counter.code());
  const weigh = () => call(bridge, 'table.weigh', { typed: '12' });
  const value = { name: 'table.weigh', input: { typed: '12' } };
  for (const answer of await Promise.all([weigh(), weigh(), weigh()]))
    expect(answer).toEqual({ ok: true, value });
});

it('states the opening of a book for each call, and learns which one changed', async () => {
  const counter = await counterAt();
  const { bridge } = windowAt(counter.origin, counter.code());
  const heard: unknown[] = [];
  bridge.on('changed', (changed) => heard.push(changed));
  await call(bridge, 'shop.get');
  await call(bridge, 'table.weigh', {}, 'an-opening');
  expect(counter.desk.calls.map(({ opening }) => opening)).toEqual([null, 'an-opening']);
  await expect.poll(() => counter.desk.listeners()).toBe(1);
  counter.desk.change('table.weigh');
  await expect.poll(() => heard).toEqual([{ call: 'table.weigh', stale: null, opening: 'first' }]);
});

it('survives a reload without the code', async () => {
  const counter = await counterAt();
  const { bridge, kept } = windowAt(counter.origin, counter.code());
  await call(bridge, 'shop.get');
  const reloaded = windowAt(counter.origin, null, kept);
  expect((await call(reloaded.bridge, 'shop.get')).ok).toBe(true);
});

it('uses its code up although it has a session, and falls back on the session when the code is used up', async () => {
  const counter = await counterAt();
  const code = counter.code();
  const { bridge, kept } = windowAt(counter.origin, counter.code());
  await call(bridge, 'shop.get');
  for (const shown of [code, code]) {
    expect((await call(windowAt(counter.origin, shown, kept).bridge, 'shop.get')).ok).toBe(true);
  }
  expect((await call(windowAt(counter.origin, code).bridge, 'shop.get')).ok).toBe(false);
});

it('gets the session of another window of the same browser, also when its own has expired', async () => {
  const counter = await counterAt();
  const first = windowAt(counter.origin, counter.code());
  await call(first.bridge, 'shop.get');
  const askOthers = async () => first.kept.get('gambrel.session') ?? null;
  for (const kept of [new Map<string, string>(), new Map([['gambrel.session', 'of-an-earlier-server']])]) {
    const second = windowAt(counter.origin, null, kept, askOthers);
    expect((await call(second.bridge, 'shop.get')).ok).toBe(true);
    expect(kept).toEqual(first.kept);
  }
});

it('reports a missing session without one, with a wrong code, or with a session of an earlier server', async () => {
  const counter = await counterAt();
  for (const [code, kept] of [
    [null, null],
    ['wrong', null],
    [null, 'of-an-earlier-server'],
  ] as const) {
    const store = new Map(kept === null ? [] : [['gambrel.session', kept]]);
    expect(await call(windowAt(counter.origin, code, store).bridge, 'shop.get')).toEqual({
      ok: false,
      problem: { kind: 'refused', code: 'desk.no-session' },
    });
    expect(store.size).toBe(0);
  }
});

it('answers desk.gone without a server, and refuses bad input without a request', async () => {
  const counter = await counterAt();
  const { bridge } = windowAt(counter.origin, counter.code());
  expect((await call(bridge, 'shop.get')).ok).toBe(true);
  await counter.carrier.close();
  expect(await call(bridge, 'shop.get')).toEqual(DESK_GONE);
  expect(await call(bridge, 'grinder.plan', { targetFat: Infinity })).toMatchObject({
    problem: { code: 'input.not-a-number' },
  });
});

it('receives changes, and refetches exactly once after a broken connection', async () => {
  const counter = await counterAt();
  const { bridge, cut } = windowAt(counter.origin, counter.code());
  const heard: (string | null)[] = [];
  bridge.on('changed', ({ call: name }) => heard.push(name));
  await expect.poll(() => counter.desk.listeners()).toBe(1);
  counter.desk.change('table.weigh');
  await expect.poll(() => heard).toEqual(['table.weigh']);

  // The connection breaks while the server keeps running.
  cut();
  await expect.poll(() => heard.slice(1)).toEqual([null]);
  await expect.poll(() => counter.desk.listeners()).toBe(1);
  counter.desk.change('table.void');
  await expect.poll(() => heard.slice(1)).toEqual([null, 'table.void']);
});

it('reads messages that arrive in fragments', async () => {
  const text = ': alive\n\nevent: changed\ndata: {"call":"ä"}\n\ndata: a\ndata: b\n\nevent: unfinished';
  const bytes = new TextEncoder().encode(text);
  for (const size of [1, 2, 7, 1000]) {
    const stream = new ReadableStream<Uint8Array<ArrayBuffer>>({
      start(sink) {
        for (let at = 0; at < bytes.length; at += size) sink.enqueue(bytes.slice(at, at + size));
        sink.close();
      },
    });
    const heard: StreamEvent[] = [];
    await readEvents(stream, (event) => heard.push(event));
    expect(heard).toEqual([
      { event: 'changed', data: '{"call":"ä"}' },
      { event: 'message', data: 'a\nb' },
    ]);
  }
});
