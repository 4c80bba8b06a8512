/** The message-port carrier over a real message channel: values that cannot be cloned do not pass. */
import { EventEmitter } from 'node:events';
import { reactive } from 'vue';
import { afterEach, expect, it, vi } from 'vitest';
import { bridgeOverPort, DESK_GONE } from '../../src/bridge/client/port.ts';
import type { Bridge, CallName } from '../../src/bridge/contract.ts';
import type { DeskCaller } from '../../src/bridge/server/answer.ts';
import { servePort, type DeskPort } from '../../src/bridge/server/port.ts';
import { freshDesk } from '../desk/fresh-desk.ts';
import { echoDesk } from './counter.ts';

const open: MessagePort[] = [];
afterEach(() => open.splice(0).forEach((port) => port.close()));

function lineTo(desk: DeskCaller): { bridge: Bridge; port: MessagePort; stop: () => void } {
  const { port1, port2 } = new MessageChannel();
  open.push(port1, port2);
  return { bridge: bridgeOverPort(port2), port: port2, stop: servePort(desk, asDeskPort(port1)) };
}

/** Gives a port the emitter interface that the desk's side expects. */
function asDeskPort(port: MessagePort): DeskPort {
  const emitter = new EventEmitter();
  port.addEventListener('message', (event: MessageEvent) => emitter.emit('message', { data: event.data }));
  port.addEventListener('close', () => emitter.emit('close'));
  return {
    on: (event: string, listener: (event: { data: unknown }) => void) => emitter.on(event, listener),
    postMessage: (message) => port.postMessage(message),
    start: () => port.start(),
    close: () => port.close(),
  };
}

/** The echo desk accepts any name; the contract's types do not. */
const call = (bridge: Bridge, name: string, input: unknown, opening: string | null = null) =>
  bridge.call(name as CallName, input as never, opening, 'en-US');

it('carries concurrent calls, each to its own answer', async () => {
  const { bridge } = lineTo(echoDesk());
  const answers = await Promise.all(
    ['rail.get', 'table.weigh', 'grinder.get'].map((name, n) => call(bridge, name, { n })),
  );
  expect(answers).toEqual([
    { ok: true, value: { name: 'rail.get', input: { n: 0 } } },
    { ok: true, value: { name: 'table.weigh', input: { n: 1 } } },
    { ok: true, value: { name: 'grinder.get', input: { n: 2 } } },
  ]);
});

it('states the opening of a book for each call, and learns which one changed', async () => {
  const desk = echoDesk();
  const { bridge, port } = lineTo(desk);
  const heard: unknown[] = [];
  bridge.on('changed', (changed) => heard.push(changed));
  await call(bridge, 'shop.get', {});
  await call(bridge, 'table.weigh', {}, 'an-opening');
  // A message without an opening, or with an invalid one, must never apply to the open book.
  port.postMessage({ id: 98, name: 'table.weigh', input: {} });
  port.postMessage({ id: 99, name: 'table.weigh', input: {}, opening: 7 });
  await expect.poll(() => desk.calls.map(({ opening }) => opening)).toEqual([null, 'an-opening', null, null]);
  desk.change('table.weigh');
  await expect.poll(() => heard).toEqual([{ call: 'table.weigh', stale: null, opening: 'first' }]);
});

it('accepts a reactive object, nested and with gaps', async () => {
  const { bridge } = lineTo(echoDesk());
  const form = reactive({
    typed: '8.3kg',
    note: undefined,
    parts: [reactive({ primal: 'shoulder', count: 1 })],
  });
  expect(() => structuredClone(form)).toThrow(); // The carrier must unwrap it.
  expect(await call(bridge, 'intake.takeIn', form)).toEqual({
    ok: true,
    value: { name: 'intake.takeIn', input: { typed: '8.3kg', parts: [{ primal: 'shoulder', count: 1 }] } },
  });
});

it('refuses values without a JSON form instead of sending something else', async () => {
  const desk = echoDesk();
  const { bridge } = lineTo(desk);
  const circle: Record<string, unknown> = {};
  circle['self'] = circle;
  expect(await call(bridge, 'grinder.plan', { targetFat: NaN })).toEqual({
    ok: false,
    problem: { kind: 'invalid', code: 'input.not-a-number', field: 'targetFat' },
  });
  expect(await call(bridge, 'grinder.plan', circle)).toMatchObject({ problem: { code: 'input.not-plain' } });
  expect(await call(bridge, 'grinder.plan', { grams: 10n })).toMatchObject({
    problem: { code: 'input.not-plain' },
  });
  expect(desk.calls).toEqual([]);
});

it.each(['__proto__', 'constructor', 'shop', 'shop.look.more', ''])('refuses the name %j', async (name) => {
  const desk = echoDesk();
  const { bridge } = lineTo(desk);
  expect(await call(bridge, name, {})).toEqual({
    ok: false,
    problem: { kind: 'missing', code: 'call.unknown' },
  });
  expect(desk.calls).toEqual([]);
});

it('answers a message that is no call, and keeps working', async () => {
  const { bridge, port } = lineTo(echoDesk());
  const heard: unknown[] = [];
  port.addEventListener('message', (event: MessageEvent) => heard.push(event.data));
  for (const nonsense of [null, 'hello', { id: 'one', name: 'shop.get' }]) port.postMessage(nonsense);
  expect((await call(bridge, 'shop.get', {})).ok).toBe(true);
  const refused = {
    id: null,
    answer: { ok: false, problem: { kind: 'invalid', code: 'request.malformed' } },
  };
  expect(heard.slice(0, 3)).toEqual([refused, refused, refused]);
});

it.each([
  'toString',
  'hasOwnProperty',
  'constructor.constructor',
  'hunters.__proto__',
  'hunters.nothing',
  'desk.close',
])('has no call %s, at a real desk', async (name) => {
  const shop = await freshDesk();
  const { bridge } = lineTo(shop.desk);
  expect(await call(bridge, name, {})).toEqual({
    ok: false,
    problem: { kind: 'missing', code: 'call.unknown' },
  });
  expect(shop.broken).toEqual([]);
  shop.desk.close();
});

it('is not affected by prototypes, in messages that none of our windows would send', async () => {
  const shop = await freshDesk();
  const { port, bridge } = lineTo(shop.desk);
  const look = await bridge.call('shop.get', {}, null, 'en-US');
  const opening = look.ok ? look.value.opening : '';
  const heard: { id: unknown; answer: { ok: boolean } }[] = [];
  port.addEventListener('message', (event: MessageEvent) => heard.push(event.data));
  const nasty = JSON.parse(
    '{"text":"nobody","__proto__":{"polluted":true},"constructor":{"prototype":{"polluted":true}}}',
  );
  const deep = Array.from({ length: 2_000 }).reduce<unknown>((inner) => [inner], []);
  const messages: unknown[] = [
    { id: 1, name: 'hunters.find', input: nasty, opening },
    { id: 2, name: { toString: 'hunters.find' }, input: {} },
    { id: 3, name: ['hunters.find'], input: {} },
    { id: 4, name: 'hunters.find', input: new Map([['text', 'nobody']]), opening },
    { id: 5, name: 'hunters.find', input: deep, opening },
    {
      id: 6,
      name: 'shop.saveSettings',
      input: { changes: JSON.parse('{"__proto__":{"lateDays":9}}') },
      opening,
    },
    JSON.parse('{"__proto__":{"id":7,"name":"shop.get"}}'),
  ];
  for (const message of messages) port.postMessage(message);
  await expect.poll(() => heard.length).toBe(messages.length);
  const answered = new Map(heard.map(({ id, answer }) => [id, answer]));
  expect(answered.get(1)).toEqual({ ok: true, value: [] });
  for (const id of [2, 3]) expect(answered.get(id)).toMatchObject({ problem: { code: 'call.unknown' } });
  expect(answered.get(null)).toMatchObject({ problem: { code: 'request.malformed' } });
  expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  expect((await shop.call('shop.get', {})).settings.lateDays).not.toBe(9);
  expect(shop.broken).toEqual([]);
  shop.desk.close();
});

it('turns a desk that throws, or gives an unserializable answer, into a problem without details', async () => {
  const log = vi.spyOn(console, 'error').mockReturnValue();
  const desk = echoDesk();
  const { bridge } = lineTo(desk);
  const failed = { ok: false, problem: { kind: 'broken', code: 'desk.failed' } };
  expect(await call(bridge, 'desk.throws', {})).toEqual(failed);
  desk.call = async () => ({ ok: true, value: () => 'a function' });
  expect(await call(bridge, 'shop.get', {})).toEqual(failed);
  expect(log).toHaveBeenCalledTimes(2);
  log.mockRestore();
});

it('notifies every listener of a change until it is removed', async () => {
  const desk = echoDesk();
  const { bridge } = lineTo(desk);
  const heard: string[] = [];
  const remove = bridge.on('changed', ({ call: name }) => heard.push(`a ${name}`));
  bridge.on('changed', ({ call: name }) => heard.push(`b ${name}`));
  desk.change('table.weigh');
  await expect.poll(() => heard).toEqual(['a table.weigh', 'b table.weigh']);
  remove();
  desk.change('table.void');
  await expect.poll(() => heard.at(-1)).toBe('b table.void');
  expect(heard).toHaveLength(3);
});

it('ends pending and later calls with desk.gone when the desk ends', async () => {
  const desk = echoDesk();
  const { bridge, stop } = lineTo(desk);
  desk.call = () => new Promise(() => undefined);
  const waiting = call(bridge, 'shop.get', {});
  await expect.poll(() => desk.listeners()).toBe(1);
  stop();
  expect(await waiting).toEqual(DESK_GONE);
  expect(await call(bridge, 'shop.get', {})).toEqual(DESK_GONE);
  expect(desk.listeners()).toBe(0);
});

it('removes its listener when the window closes', async () => {
  const desk = echoDesk();
  const { port } = lineTo(desk);
  expect(desk.listeners()).toBe(1);
  port.close();
  await expect.poll(() => desk.listeners()).toBe(0);
});
