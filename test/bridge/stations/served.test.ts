/** The built program with stations: nothing listens for them until the shop switches them on, and a device is paired as a person would. */
import { connect } from 'node:net';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { OPENING_HEADER } from '../../../src/bridge/wire.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { serve, type Served } from '../../e2e/served.ts';
import { rootBeside } from '../../torture/line/running-desk.ts';
import { post } from '../../torture/line/station.ts';
import { freePort } from './open-line.ts';

const ADDRESS = '127.0.0.1';
const bookPath = tempBookPath();
let program: Served;
/** A call of the shop's own window. */
let call: <T>(name: string, input: unknown) => Promise<T>;
beforeAll(async () => {
  program = await serve('--book', bookPath);
  const { origin, hash } = new URL(await program.newAddress());
  const json = { 'content-type': 'application/json' };
  const body = JSON.stringify({ code: hash.slice('#code='.length) });
  const admitted = await fetch(`${origin}/session`, { method: 'POST', headers: json, body });
  const { bearer } = (await admitted.json()) as { bearer: string };
  let opening = '';
  call = async <T>(name: string, input: unknown) => {
    const headers = { ...json, authorization: `Bearer ${bearer}`, [OPENING_HEADER]: opening };
    const sent = await fetch(`${origin}/call/${name}`, {
      method: 'POST',
      headers,
      body: JSON.stringify(input),
    });
    const answer = (await sent.json()) as { ok: boolean; value: T };
    if (!answer.ok) throw new Error(JSON.stringify(answer));
    return answer.value;
  };
  ({ opening } = await call<{ opening: string }>('shop.get', {}));
  await call('shop.setUp', { shopName: 'Oak Ridge', unit: 'lb' });
});
afterAll(() => program.end('SIGINT'));

function isListening(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, ADDRESS, () => {
      socket.destroy();
      resolve(true);
    });
    socket.on('error', () => resolve(false));
  });
}

it('opens the line when it is switched on, pairs a device, and closes it again', async () => {
  const port = await freePort();
  const setUp = (on: boolean) =>
    call('stations.setUp', { on, address: ADDRESS, port, pins: false, by: 'MK' });
  await setUp(false);
  expect(await isListening(port)).toBe(false);
  await setUp(true);
  await expect.poll(() => isListening(port)).toBe(true);
  await expect
    .poll(() => call('stations.get', {}))
    .toMatchObject({ line: { state: 'open', addresses: [ADDRESS], port, isNew: true } });
  const place = { port, host: `${ADDRESS}:${port}`, root: rootBeside(bookPath) };
  const { code } = await call<{ code: { code: string } }>('stations.newCode', {});
  const asked = (await post(place, '/pairing', { code: code.code })) as {
    value: { request: string; number: string };
  };
  const { requests } = await call<{ requests: { request: string; number: string }[] }>('stations.get', {});
  expect(requests).toMatchObject([asked.value]);
  const { request } = asked.value;
  await call('stations.allow', { request, name: 'Table 2', place: 'table', language: 'en-US', by: 'MK' });
  const outcome = (await post(place, '/pairing/outcome', { request })) as { value: { secret: string } };
  const { secret } = outcome.value;
  const entrance = await post(place, '/station', {}, { secret });
  expect(await post(place, '/pairing/outcome', { request })).toMatchObject({ value: { state: 'over' } });
  expect(entrance).toMatchObject({ value: { station: { name: 'Table 2', place: 'table' } } });
  // A table has no business with the shop's prices.
  expect(await post(place, '/call/prices.get', {}, { secret })).toMatchObject({
    problem: { code: 'station.place' },
  });
  const { stations } = await call<{ stations: { id: number }[] }>('stations.get', {});
  await call('stations.remove', { id: stations[0]?.id, by: 'MK' });
  await expect(post(place, '/station', {}, { secret })).rejects.toThrow(/401.*station\.removed/);
  await setUp(false);
  await expect.poll(() => isListening(port)).toBe(false);
});
