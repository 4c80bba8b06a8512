/** Devices become stations only with a code, a number compared by the owner and a secret that is told once. */
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { problemCodes } from '../../../src/ui/texts/problem-sentences.ts';
import { freshFloor, type Floor } from './floor.ts';

let floor: Floor;
beforeEach(async () => void (floor = await freshFloor()));
afterEach(() => floor.desk.close());

/** The code of a problem that `work` throws. */
function thrown(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  return 'nothing was thrown';
}
const ask = (code: string) => floor.door.ask(code, floor.device);
const newCode = async (): Promise<string> => (await floor.call('stations.newCode', {})).code?.code ?? '';
const NAMED = { name: 'Table 2', place: 'table', language: 'es-MX', by: 'MK' } as const;

describe('a code', () => {
  it('has eight of twenty letters, and every code is another', async () => {
    const codes = await Promise.all(Array.from({ length: 50 }, newCode));
    for (const code of codes) expect(code).toMatch(/^[BCDFGHJKLMNPQRSTVWXZ]{8}$/);
    expect(new Set(codes).size).toBe(50);
  });

  it('works once', async () => {
    const code = await newCode();
    expect(ask(code).number).toMatch(/^\d{4}$/);
    expect(thrown(() => ask(code))).toBe('pairing.wrong-code');
  });

  it('is read as people write it', async () => {
    const code = await newCode();
    expect(ask(` ${code.slice(0, 4).toLowerCase()}-${code.slice(4)} `).request).not.toBe('');
  });

  it('is over after five minutes, and when another is made', async () => {
    const [first, second] = [await newCode(), await newCode()];
    expect(thrown(() => ask(first))).toBe('pairing.wrong-code');
    floor.wait(5 * 60);
    expect(thrown(() => ask(second))).toBe('pairing.wrong-code');
    expect((await floor.call('stations.get', {})).code).toBeNull();
  });

  it('is locked for the whole desk by ten wrong ones, until the shop makes another', async () => {
    const code = await newCode();
    const wrong = code.startsWith('B') ? 'CCCCCCCC' : 'BBBBBBBB';
    for (let i = 0; i < 9; i++) expect(thrown(() => ask(wrong))).toBe('pairing.wrong-code');
    expect(await floor.call('stations.get', {})).toMatchObject({ locked: false, code: { code } });
    expect(thrown(() => ask(wrong))).toBe('pairing.wrong-code');
    expect(thrown(() => ask(code))).toBe('pairing.locked');
    expect(await floor.call('stations.get', {})).toMatchObject({ locked: true, code: null });
    expect(ask(await newCode()).request).not.toBe('');
  });

  it('is none while stations are off, and switching off ends what waits', async () => {
    const { request } = await floor.asking();
    const code = await newCode();
    await floor.call('stations.setUp', { on: false, address: null, pins: false });
    expect(thrown(() => ask(code))).toBe('pairing.off');
    expect(await floor.problem('stations.newCode', {})).toMatchObject({ code: 'pairing.off' });
    expect(floor.door.outcome(request)).toEqual({ state: 'over' });
  });

  it.each(['', ' ', 'x'.repeat(100_000), '🦌'.repeat(8), 'ＢＢＢＢＢＢＢＢ', '\0'.repeat(8)])(
    'is not %j',
    async (typed) => {
      await newCode();
      expect(thrown(() => ask(typed))).toBe('pairing.wrong-code');
    },
  );
});

describe('a device that asks', () => {
  it('shows the number that the owner sees, and gets its secret until it came in', async () => {
    const { request, number } = await floor.asking();
    expect(floor.door.outcome(request)).toEqual({ state: 'waiting' });
    const { requests } = await floor.call('stations.get', {});
    const { agent, address } = floor.device;
    expect(requests).toMatchObject([{ request, number, agent, address }]);
    const { id } = await floor.call('stations.allow', { request, ...NAMED });
    const outcome = floor.door.outcome(request);
    const { name, place, language } = NAMED;
    expect(outcome).toMatchObject({ state: 'allowed', station: { id, name, place, language } });
    if (outcome.state !== 'allowed') throw new Error(outcome.state);
    // The line may have broken under the first answer.
    expect(floor.door.outcome(request)).toEqual(outcome);
    expect(floor.door.enter(outcome.secret)).toMatchObject({ state: 'open', station: { id } });
    expect(floor.door.outcome(request)).toEqual({ state: 'over' });
    expect(Buffer.from(outcome.secret, 'base64url')).toHaveLength(32);
    const db = new Database(floor.bookPath, { readonly: true });
    expect(JSON.stringify(db.prepare('SELECT * FROM station').all())).not.toContain(outcome.secret);
    db.close();
  });

  it('is refused, and its request cannot be allowed afterwards or twice', async () => {
    const first = await floor.asking();
    await floor.call('stations.refuse', { request: first.request });
    expect(await floor.problem('stations.allow', { request: first.request, ...NAMED })).toMatchObject({
      code: 'pairing.over',
    });
    expect(floor.door.outcome(first.request)).toEqual({ state: 'refused' });
    expect(floor.door.outcome(first.request)).toEqual({ state: 'over' });
    const second = await floor.asking();
    await floor.call('stations.allow', { request: second.request, ...NAMED });
    expect(await floor.problem('stations.allow', { request: second.request, ...NAMED })).toMatchObject({
      code: 'pairing.over',
    });
    expect((await floor.call('stations.get', {})).stations).toHaveLength(1);
  });

  it('waits five minutes at most', async () => {
    const { request } = await floor.asking();
    floor.wait(5 * 60);
    expect(await floor.problem('stations.allow', { request, ...NAMED })).toMatchObject({
      code: 'pairing.over',
    });
    expect(floor.door.outcome(request)).toEqual({ state: 'over' });
  });

  it('is told to the windows at once', async () => {
    const asks: unknown[] = [];
    floor.desk.onChanged(({ stale }) => asks.push(stale?.asks));
    await floor.asking();
    expect(asks).toContainEqual(['stations.get']);
  });

  it('is shown as one short line, whatever it says of itself', async () => {
    const { code } = await floor.call('stations.newCode', {});
    floor.door.ask(code?.code ?? '', {
      agent: `<img>\n\u202E\0${'x'.repeat(9000)}`,
      address: 'a\nb',
      origin: 'o',
    });
    const [shown] = (await floor.call('stations.get', {})).requests;
    expect(shown?.address).toBe('a b');
    expect(shown?.agent).toMatch(/^<img> {3}x{190,}$/);
    expect(shown?.agent.length).toBeLessThanOrEqual(200);
  });
});

describe('a station', () => {
  it('has a name of its own', async () => {
    await floor.pair('table', 'Table 2');
    const { request } = await floor.asking();
    const again = { ...NAMED, name: 'TABLE 2' };
    expect(await floor.problem('stations.allow', { request, ...again })).toMatchObject({
      code: 'station.name-taken',
    });
    const other = await floor.pair('table', 'Table 3');
    expect(await floor.problem('stations.rename', { id: other.id, ...again })).toMatchObject({
      code: 'station.name-taken',
    });
    await floor.call('stations.rename', { id: other.id, ...again, name: 'Table 4' });
    expect(floor.door.enter(other.secret)).toMatchObject({ station: { name: 'Table 4', language: 'es-MX' } });
  });

  it('that is paused is shut out until it is resumed', async () => {
    const { id, secret, call } = await floor.pair('table');
    await floor.call('stations.pause', { id, by: 'MK' });
    expect(floor.door.enter(secret)).toEqual({ state: 'paused' });
    expect(await call('rail.get', {})).toMatchObject({ problem: { code: 'station.paused' } });
    await floor.call('stations.resume', { id, by: 'MK' });
    expect(await call('rail.get', {})).toMatchObject({ ok: true });
  });

  it('that is removed is shut out for good, and told so', async () => {
    const { id, secret, call } = await floor.pair('table');
    const told: unknown[] = [];
    floor.door.watch(secret, (event) => told.push(event));
    await floor.call('stations.remove', { id, reason: 'left in a truck', by: 'MK' });
    expect(told).toEqual([{ kind: 'shut', state: 'removed' }]);
    expect(await call('rail.get', {})).toMatchObject({ problem: { code: 'station.removed' } });
    for (const to of ['stations.resume', 'stations.pause', 'stations.remove'] as const)
      expect(await floor.problem(to, { id })).toMatchObject({ code: 'station.removed' });
    expect(floor.door.origins()).toEqual([]);
    await floor.pair('table');
  });

  it('is nobody with a secret that is guessed, or of another book', async () => {
    const { secret } = await floor.pair('table');
    const other = await freshFloor();
    for (const wrong of ['', 'x', secret.slice(1), `${secret}=`, 'constructor', 'x'.repeat(100_000)])
      expect(floor.door.enter(wrong)).toEqual({ state: 'unknown' });
    expect(other.door.enter(secret)).toEqual({ state: 'unknown' });
    other.desk.close();
  });

  it('cannot let in, rename or remove stations, nor open another book, not even at the office', async () => {
    const { call, id } = await floor.pair('office');
    for (const name of [
      'stations.get',
      'stations.newCode',
      'stations.remove',
      'stations.setUp',
      'shop.openDemo',
      'shop.beginAnew',
    ])
      expect(await call(name, { id })).toMatchObject({ problem: { code: 'station.place' } });
    expect(await call('prices.get', {})).toMatchObject({ ok: true });
  });
});

it('every refusal has its sentence', () => {
  expect(problemCodes).toEqual(
    expect.arrayContaining(['pairing.locked', 'station.removed', 'entry.gap', 'person.wait']),
  );
});
