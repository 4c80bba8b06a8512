/**
 * A book that is older than what stations were answered: restored, put back as a file, or another one. What it lacks is asked
 * about, and comes in once and in order, or stays on the device.
 */
import { randomUUID } from 'node:crypto';
import { copyFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { compareOutbox, decided } from '../../../src/bridge/client/station/compare.ts';
import { sendOutbox } from '../../../src/bridge/client/station/outbox.ts';
import { memoryOutbox } from '../../bridge/client/station/memory-outbox.ts';
import { deskOn } from '../fresh-desk.ts';
import { floorOn, freshFloor, type Floor } from './floor.ts';

let floor: Floor;
beforeEach(async () => void (floor = await freshFloor()));
afterEach(() => floor.desk.close());

/** A device that does what the page of a station does: it compares, tells what it holds, and sends. */
function device(id: number, secret: string) {
  const outbox = memoryOutbox();
  const lineage = () => {
    const entrance = floor.door.enter(secret);
    return entrance.state === 'open' ? entrance.lineage : '';
  };
  const count = (state: string) => outbox.entries.filter(({ outcome }) => outcome.state === state).length;
  const ofOther = () =>
    outbox.entries.filter((one) => one.outcome.state === 'waiting' && one.lineage !== lineage()).length;
  const tell = () =>
    floor.door.holds(secret, {
      waiting: count('waiting'), unanswered: count('asks') + count('refused'), ofOtherBook: ofOther(), left: count('left'),
    }); // prettier-ignore
  return {
    outbox,
    type(name: string) {
      return outbox.put({ name: 'hunters.save', input: { name, by: 'S' }, lineage: lineage(), said: 'S' });
    },
    /** Comes in: compares, does what was decided, sends. @returns what keeps it from sending */
    async comeIn(): Promise<string | null> {
      const compare = () => compareOutbox(outbox, async (lines) => floor.door.compare(secret, lines));
      await compare();
      tell();
      const decision = await compare();
      if (decision) await outbox.settle(decided(outbox.entries, decision, lineage()), await outbox.line());
      const problem = await sendOutbox(outbox, (entry) => floor.door.take(secret, entry), randomUUID);
      tell();
      return problem?.code ?? null;
    },
    row: async () => (await floor.call('stations.get', {})).stations.find((one) => one.id === id),
    states: () => outbox.entries.map(({ outcome }) => outcome.state),
  };
}

async function paired() {
  const { id, secret } = await floor.pair('office', 'Table 2');
  return { id, secret, ...device(id, secret) };
}
const hunters = async (): Promise<string[]> =>
  floor.desk.session()!.book.db.prepare<[], string>('SELECT name FROM hunter ORDER BY id').pluck().all();
const typeAll = (one: { type(name: string): unknown }, ...names: string[]) =>
  names.forEach((name) => one.type(name));

describe('a book restored from a backup', () => {
  async function restored() {
    const table = await paired();
    typeAll(table, 'A', 'B');
    expect(await table.comeIn()).toBeNull();
    const { path } = await floor.call('shop.backUp', {});
    typeAll(table, 'C', 'D');
    expect(await table.comeIn()).toBeNull();
    floor.wait(5);
    typeAll(table, 'E');
    await floor.call('shop.restore', { path });
    return table;
  }

  it('asks what to do with what it lacks, and saves nothing unasked', async () => {
    const table = await restored();
    expect(await table.comeIn()).toBe('entry.other-book');
    expect(await table.row()).toMatchObject({
      held: { waiting: 3, ofOtherBook: 3, left: 0 },
      decision: null,
    });
    expect(await hunters()).toEqual(['A', 'B']);
  });

  it('takes it in once and in order, and what is typed meanwhile after it', async () => {
    const table = await restored();
    await table.comeIn();
    typeAll(table, 'F');
    const told: unknown[] = [];
    floor.door.watch(table.secret, (event) => told.push(event.kind));
    await floor.call('stations.decide', { id: table.id, take: true, by: 'MK' });
    expect(told).toContain('held');
    expect(await table.comeIn()).toBeNull();
    expect(await table.comeIn()).toBeNull();
    expect(await hunters()).toEqual(['A', 'B', 'C', 'D', 'E', 'F']);
    expect(await table.row()).toMatchObject({
      held: { waiting: 0, ofOtherBook: 0 },
      decision: null,
      entries: 6,
    });
  });

  it('leaves it on the device, goes on with new work, and can still take it in', async () => {
    const table = await restored();
    await table.comeIn();
    await floor.call('stations.decide', { id: table.id, take: false, by: 'MK' });
    await table.comeIn();
    typeAll(table, 'F');
    expect(await table.comeIn()).toBeNull();
    expect(await hunters()).toEqual(['A', 'B', 'F']);
    expect(await table.row()).toMatchObject({
      held: { waiting: 0, ofOtherBook: 0, left: 3 },
      decision: null,
    });
    await floor.call('stations.decide', { id: table.id, take: true, by: 'MK' });
    expect(await table.comeIn()).toBeNull();
    expect(await hunters()).toEqual(['A', 'B', 'F', 'C', 'D', 'E']);
    expect(await table.row()).toMatchObject({ held: { left: 0 }, decision: null });
  });

  it('asks again after the desk was started anew, and notes the decision', async () => {
    const table = await restored();
    await table.comeIn();
    floor.desk.close();
    floor = await floorOn(await deskOn(floor.bookPath));
    expect(await table.row()).toMatchObject({ held: null, decision: null });
    const nothing = { kind: 'conflict', code: 'station.holds-nothing' };
    expect(await floor.problem('stations.decide', { id: table.id, take: true, by: 'MK' })).toEqual(nothing);
    await table.comeIn();
    await floor.call('stations.decide', { id: table.id, take: true, by: 'MK' });
    const audit = floor.desk.session()?.book.audit.of('station', table.id);
    expect(audit).toMatchObject([{ act: 'change', after: '{"decision":"take"}', by: 'MK' }]);
    await table.comeIn();
    expect(await hunters()).toEqual(['A', 'B', 'C', 'D', 'E']);
  });

  it('gets all that it lacks from a device that was paired anew', async () => {
    const { path } = await floor.call('shop.backUp', {});
    const table = await paired();
    typeAll(table, 'A', 'B');
    await table.comeIn();
    floor.wait(5);
    await floor.call('shop.restore', { path });
    const { id, secret } = await floor.pair('office', 'Table 2');
    const again = device(id, secret);
    for (const one of table.outbox.entries) again.outbox.entries.push(one);
    expect(await again.comeIn()).toBe('entry.other-book');
    await floor.call('stations.decide', { id, take: true, by: 'MK' });
    expect(await again.comeIn()).toBeNull();
    expect(await hunters()).toEqual(['A', 'B']);
  });
});

it('asks also where an earlier file was put in the book’s place', async () => {
  const table = await paired();
  typeAll(table, 'A');
  await table.comeIn();
  floor.desk.close();
  copyFileSync(floor.bookPath, `${floor.bookPath}.kept`);
  floor = await floorOn(await deskOn(floor.bookPath));
  typeAll(table, 'B');
  await table.comeIn();
  typeAll(table, 'C');
  floor.desk.close();
  copyFileSync(`${floor.bookPath}.kept`, floor.bookPath);
  floor = await floorOn(await deskOn(floor.bookPath));
  expect(await table.comeIn()).toBe('entry.other-book');
  expect(await hunters()).toEqual(['A']);
  await floor.call('stations.decide', { id: table.id, take: true, by: 'MK' });
  expect(await table.comeIn()).toBeNull();
  expect(await hunters()).toEqual(['A', 'B', 'C']);
});

it('lets a station forget old entries only once they stand in a backup', async () => {
  const table = await paired();
  typeAll(table, 'A', 'B', 'C');
  await table.comeIn();
  const has = async () =>
    floor.door.compare(table.secret, [{ line: (await table.outbox.line()).id, last: 3 }]);
  expect(await has()).toMatchObject({ lines: [{ has: 3, backedUp: 0 }] });
  await floor.call('shop.backUp', {});
  typeAll(table, 'D');
  await table.comeIn();
  expect(await has()).toMatchObject({ lines: [{ has: 4, backedUp: 3 }] });
});
