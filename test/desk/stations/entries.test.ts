/** What a station typed while its line was down is taken once, in order, and keeps the answer that it got. */
import { randomUUID } from 'node:crypto';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { OutboxEntry } from '../../../src/desk/contract/stations.ts';
import { takeIn } from '../fresh-desk.ts';
import { allRows } from '../all-rows.ts';
import { freshFloor, outbox, type Floor } from './floor.ts';

let floor: Floor;
let table: Awaited<ReturnType<Floor['pair']>>;
let entry: ReturnType<typeof outbox>;
let animalId: number;
beforeEach(async () => {
  floor = await freshFloor();
  table = await floor.pair('table');
  entry = outbox(floor, table.secret);
  animalId = await takeIn(floor);
});
afterEach(() => floor.desk.close());

const take = (sent: unknown, secret = table.secret) => floor.door.take(secret, sent);
const trim = (typed: string) => ({ animalId, stage: 'cut', part: 'trim', typed, by: 'RB' });
const refusedWith = (code: string, expected: number | null) => ({
  taken: false,
  expected,
  problem: { code },
});
const rows = (sql: string): unknown[] => {
  const db = new Database(floor.bookPath, { readonly: true });
  try {
    return db.prepare(sql).all();
  } finally {
    db.close();
  }
};
const weights = () => rows("SELECT typed, by FROM weighing WHERE stage = 'cut' ORDER BY id");

describe('an entry', () => {
  it('is taken once: sent again it gets the same answer, and nothing more is written', async () => {
    const first = entry('table.weigh', trim('12.5'));
    const answer = await take(first);
    expect(answer).toMatchObject({ taken: true, number: 1, repeated: false, answer: { ok: true } });
    const before = allRows(floor.bookPath);
    expect(await take(first)).toEqual({ ...answer, repeated: true });
    const sentOtherwise = {
      ...first,
      input: Object.fromEntries(Object.entries(trim('12.5')).reverse()),
      aheadMs: 9,
    };
    expect(await take(sentOtherwise)).toEqual({ ...answer, repeated: true });
    expect(allRows(floor.bookPath)).toEqual(before);
    expect(weights()).toEqual([{ typed: '12.5', by: 'RB' }]);
  });

  it('of the same number with another content is refused, and the kept one stays', async () => {
    const first = entry('table.weigh', trim('12.5'));
    await take(first);
    for (const other of [
      { input: trim('125') },
      { name: 'table.void' },
      { id: randomUUID() },
      { said: 'XX' },
      { at: '2026-10-10T15:00:00.000Z' },
    ])
      expect(await take({ ...first, ...other })).toMatchObject(refusedWith('entry.other-payload', 2));
    expect(weights()).toHaveLength(1);
  });

  it('after a gap is refused until the one before has come', async () => {
    const [first, second, third] = ['1', '2', '3'].map((typed) => entry('table.weigh', trim(typed)));
    expect(await take(third)).toMatchObject(refusedWith('entry.gap', 1));
    await take(first);
    expect(await take(third)).toMatchObject(refusedWith('entry.gap', 2));
    await take(second);
    expect(await take(third)).toMatchObject({ taken: true, number: 3 });
    expect(weights()).toMatchObject([{ typed: '1' }, { typed: '2' }, { typed: '3' }]);
  });

  it('that the desk doubts or refuses keeps the refusal as its answer, and the line goes on', async () => {
    await take(entry('table.weigh', trim('5')));
    const doubtful = await take(entry('table.weigh', trim('5')));
    expect(doubtful).toMatchObject({
      taken: true,
      number: 2,
      answer: { ok: false, problem: { kind: 'conflict' } },
    });
    const invalid = entry('table.weigh', { ...trim('1'), animalId: 0 });
    const answer = await take(invalid);
    expect(answer).toMatchObject({
      number: 3,
      answer: { ok: false, problem: { kind: 'invalid', code: 'id.needed' } },
    });
    const sure = entry('table.weigh', { ...trim('5'), confirmed: true });
    expect(await take(sure)).toMatchObject({ number: 4, answer: { ok: true } });
    expect(await take(invalid)).toEqual({ ...answer, repeated: true });
    expect(weights()).toMatchObject([{ typed: '5' }, { typed: '5' }]);
    expect(rows('SELECT * FROM station_write')).toHaveLength(2);
  });

  it.each([
    ['another place’s call', 'grinder.start', 'station.place'],
    ['a call of the office', 'prices.save', 'station.place'],
    ['a call of the desk alone', 'stations.remove', 'station.place'],
    ['no call', 'constructor', 'call.unknown'],
    ['a query', 'rail.get', 'entry.not-offline'],
  ])('that asks for %s is refused as its answer', async (_, name, code) => {
    expect(await take(entry(name, {}))).toMatchObject({
      taken: true,
      answer: { ok: false, problem: { code } },
    });
    expect(await take(entry('table.weigh', trim('5')))).toMatchObject({ number: 2, answer: { ok: true } });
  });

  it('that fails after its first row leaves none, is answered as a fault of the program, and the line goes on', async () => {
    const office = await floor.pair('office');
    const typed = outbox(floor, office.secret);
    const db = floor.desk.session()?.book.db;
    db?.exec(
      "CREATE TEMP TRIGGER fails BEFORE INSERT ON main.audit BEGIN SELECT RAISE(ABORT, 'a fault'); END",
    );
    const answer = await take(typed('hunters.save', { name: 'Bo Rask' }), office.secret);
    db?.exec('DROP TRIGGER fails');
    expect(answer).toMatchObject({ taken: true, number: 1, answer: { problem: { code: 'desk.broken' } } });
    expect(rows("SELECT * FROM hunter WHERE name = 'Bo Rask'")).toEqual([]);
    expect(floor.broken).toHaveLength(1);
    expect(await take(typed('hunters.save', { name: 'Bo Rask' }), office.secret)).toMatchObject({
      number: 2,
      answer: { ok: true },
    });
  });

  it('says ids and no text in its answer', async () => {
    const counter = await floor.pair('counter');
    const came = outbox(floor, counter.secret);
    const hunter = { name: 'Bo Rask', phone: '555-0199' };
    const input = { hunter, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', by: 'RB' };
    const taken = await take(came('intake.takeIn', input), counter.secret);
    expect(taken).toMatchObject({ answer: { ok: true, value: { id: animalId + 1 } } });
    expect(JSON.stringify(rows('SELECT * FROM station_entry'))).not.toMatch(/Rask|0199/);
  });
});

describe('a line', () => {
  it('belongs to one station, and a wiped device begins another', async () => {
    const line = randomUUID();
    await take(outbox(floor, table.secret, line)('table.weigh', trim('5')));
    const other = await floor.pair('table', 'Table 2');
    const stolen = outbox(floor, other.secret, line);
    expect(await take(stolen('table.weigh', trim('6')), other.secret)).toMatchObject(
      refusedWith('entry.other-line', null),
    );
    expect(await take(stolen('table.weigh', trim('6')), other.secret)).toMatchObject(
      refusedWith('entry.other-line', null),
    );
    const fresh = outbox(floor, table.secret);
    expect(await take(fresh('table.weigh', trim('7')))).toMatchObject({ taken: true, number: 1 });
  });

  it('takes no entry twice under another number', async () => {
    const first = entry('table.weigh', trim('5'));
    await take(first);
    expect(await take({ ...first, number: 2 })).toMatchObject(refusedWith('entry.twice', 2));
    expect(await take({ ...first, line: randomUUID() })).toMatchObject(refusedWith('entry.twice', 1));
  });

  it('of a station that is paused or removed is not taken, and goes on where it stopped', async () => {
    const waiting = entry('table.weigh', trim('5'));
    await floor.call('stations.pause', { id: table.id });
    expect(await take(waiting)).toMatchObject(refusedWith('station.paused', null));
    await floor.call('stations.resume', { id: table.id });
    expect(await take(waiting)).toMatchObject({ taken: true });
    await floor.call('stations.remove', { id: table.id });
    expect(await take(waiting)).toMatchObject(refusedWith('station.removed', null));
    expect(await take(waiting, 'guessed')).toMatchObject(refusedWith('station.unknown', null));
  });

  it('keeps both clocks, and orders by number alone', async () => {
    await take(entry('table.weigh', trim('5'), { at: '2031-01-01T00:00:00.000Z', aheadMs: 133_000_000_000 }));
    await take(entry('table.weigh', trim('6'), { at: '1999-01-01T00:00:00.000Z', aheadMs: -8e11 }));
    expect(rows('SELECT number, typed_at, ahead_ms, at FROM station_entry ORDER BY id')).toMatchObject([
      {
        number: 1,
        typed_at: '2031-01-01T00:00:00.000Z',
        ahead_ms: 133_000_000_000,
        at: '2026-10-10T15:00:00.000Z',
      },
      { number: 2, typed_at: '1999-01-01T00:00:00.000Z', at: '2026-10-10T15:00:00.000Z' },
    ]);
  });

  it('made before a backup was restored is asked about, not taken', async () => {
    await take(entry('table.weigh', trim('5')));
    const { path } = await floor.call('shop.backUp', {});
    const lost = entry('table.weigh', trim('6'));
    const before = floor.door.enter(table.secret);
    await floor.call('shop.restore', { path });
    expect(await take(lost)).toMatchObject(refusedWith('entry.other-book', null));
    const after = floor.door.enter(table.secret);
    if (before.state !== 'open' || after.state !== 'open') throw new Error('The station is in the backup.');
    expect(after.lineage).not.toBe(before.lineage);
    expect(await take({ ...lost, lineage: after.lineage })).toMatchObject({ taken: true, number: 2 });
  });
});

describe('what cannot be read is not taken', () => {
  const faults: [string, (good: OutboxEntry) => unknown, string][] = [
    ['nothing', () => null, 'entry.unreadable'],
    ['a text', () => 'entry', 'entry.unreadable'],
    ['a newer shape', (good) => ({ ...good, wire: 2 }), 'entry.wire'],
    ['an older shape that never was', (good) => ({ ...good, wire: 0 }), 'entry.unreadable'],
    ['number zero', (good) => ({ ...good, number: 0 }), 'entry.unreadable'],
    ['half a number', (good) => ({ ...good, number: 1.5 }), 'entry.unreadable'],
    ['a line that is no UUID', (good) => ({ ...good, line: "1'; DROP TABLE station" }), 'entry.unreadable'],
    ['no moment', (good) => ({ ...good, at: 'yesterday' }), 'entry.unreadable'],
    ['a name without end', (good) => ({ ...good, name: 'x'.repeat(1000) }), 'entry.unreadable'],
    ['initials without end', (good) => ({ ...good, said: 'x'.repeat(1000) }), 'entry.unreadable'],
    ['an input without end', (good) => ({ ...good, input: { note: 'x'.repeat(70_000) } }), 'entry.too-large'],
  ];
  it.each(faults)('%s', async (_, spoil, code) => {
    expect(await take(spoil(entry('table.weigh', trim('5'))))).toMatchObject(refusedWith(code, null));
    expect(rows('SELECT * FROM station_entry')).toEqual([]);
    expect(floor.broken).toEqual([]);
  });
});

describe('a station that is removed while its call runs', () => {
  it('writes nothing: its row is read in the transaction', async () => {
    const grinder = await floor.pair('grinder');
    const cut = { animalId, stage: 'cut', part: 'trim', typed: '60' } as const;
    await floor.call('table.weigh', cut);
    const input = { animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Ground', by: 'RB' };
    // The plan is solved first; the station is removed meanwhile.
    const started = grinder.call('grinder.start', input);
    await floor.call('stations.remove', { id: grinder.id });
    expect(await started).toMatchObject({ ok: false, problem: { code: 'station.removed' } });
    expect(rows('SELECT * FROM batch')).toEqual([]);
  });

  it('else it starts the batch, and the trail names it', async () => {
    const grinder = await floor.pair('grinder');
    await floor.call('table.weigh', { animalId, stage: 'cut', part: 'trim', typed: '60' });
    const input = { animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Ground', by: 'RB' };
    expect(await grinder.call('grinder.start', input)).toMatchObject({ ok: true });
    expect(rows('SELECT * FROM station_write')).toMatchObject([
      { station_id: grinder.id, call: 'grinder.start', person: 'RB', checked: 0 },
    ]);
  });
});

it('a write that the worker thread makes names the station too', async () => {
  const office = await floor.pair('office');
  // Deriving a key of a passphrase always takes the worker.
  const lock = { passphrase: 'nine tails of a cat', by: 'MK' };
  expect(await office.call('shop.setLock', lock)).toMatchObject({ ok: true });
  expect(rows('SELECT * FROM station_write')).toMatchObject([
    { station_id: office.id, call: 'shop.setLock' },
  ]);
  expect(rows('SELECT station_id, person FROM audit ORDER BY id DESC LIMIT 1')).toEqual([
    { station_id: office.id, person: 'MK' },
  ]);
}, 60_000);

it('a listening station is told of what its place may ask again, and of nothing else', async () => {
  const told: unknown[] = [];
  const stop = floor.door.watch(table.secret, (event) => told.push(event));
  await floor.call('bills.setExtras', { animalId, pricedExtras: {} });
  await floor.call('animals.setDetail', { id: animalId, detail: 'quick' });
  await floor.call('stations.rename', { id: table.id, name: 'Big table', place: 'table', language: 'en-US' });
  const named = JSON.stringify(told);
  expect(named).toContain('animals.get');
  expect(named).not.toMatch(/bills|till|prices|costing|season|stations/);
  expect(told).toContainEqual({
    kind: 'station',
    station: expect.objectContaining({ name: 'Big table' }) as unknown,
    addresses: [],
  });
  stop();
  const before = told.length;
  await floor.call('animals.setDetail', { id: animalId, detail: 'detailed' });
  expect(told).toHaveLength(before);
});
