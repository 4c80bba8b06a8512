/** An animal that a station took in while its line was down: what belongs to it says its own name for it. */
import { randomUUID } from 'node:crypto';
import { afterEach, beforeEach, expect, it } from 'vitest';
import type { OutboxEntry } from '../../../src/desk/contract/stations.ts';
import { deskOn } from '../fresh-desk.ts';
import { floorOn, freshFloor, outbox, type Floor } from './floor.ts';

let floor: Floor;
let counter: Awaited<ReturnType<Floor['pair']>>;
let entry: ReturnType<typeof outbox>;
beforeEach(async () => {
  floor = await freshFloor();
  counter = await floor.pair('counter');
  entry = outbox(floor, counter.secret);
});
afterEach(() => floor.desk.close());

const made = randomUUID();
const take = (one: OutboxEntry) => floor.door.take(counter.secret, one);
const intake = (name = 'Ana Ruiz', more: object = {}) =>
  entry(
    'intake.takeIn',
    {
      hunter: { name },
      species: 'mule-deer',
      sex: 'male',
      age: 'adult',
      brought: 'skinned',
      weights: [],
      by: 'RB',
      ...more,
    },
    { makes: made },
  );
const weigh = (typed: string, animalId: unknown = { made }) =>
  entry('table.weigh', { animalId, stage: 'hanging', part: 'carcass', typed, by: 'RB' });
const weights = () =>
  floor.desk
    .session()!
    .book.db.prepare(
      'SELECT h.name, w.typed FROM weighing w JOIN animal a ON a.id = w.animal_id JOIN hunter h ON h.id = a.hunter_id ORDER BY w.id',
    )
    .all();

it('is weighed in order and once, also by a desk that was ended in between', async () => {
  const entries = [intake(), weigh('90'), weigh('12')];
  expect(await take(entries[0]!)).toMatchObject({ taken: true, answer: { ok: true } });
  floor.desk.close({ backUp: false });
  floor = await floorOn(await deskOn(floor.bookPath));
  for (const one of [entries[0]!, entries[1]!, entries[1]!])
    expect(await take(one)).toMatchObject({ taken: true });
  expect(weights()).toEqual([{ name: 'Ana Ruiz', typed: '90' }]);
});

it('may be named by another station later', async () => {
  await take(intake());
  const cooler = await floor.pair('cooler');
  const other = outbox(floor, cooler.secret)('table.weigh', {
    animalId: { made },
    stage: 'hanging',
    part: 'carcass',
    typed: '91',
    by: 'JT',
  });
  expect(await floor.door.take(cooler.secret, other)).toMatchObject({ answer: { ok: true } });
  expect(weights()).toEqual([{ name: 'Ana Ruiz', typed: '91' }]);
});

it('that is not in the book refuses what belongs to it, as an answer', async () => {
  expect(await take(weigh('90'))).toMatchObject({
    taken: true,
    answer: { ok: false, problem: { code: 'entry.not-made' } },
  });
});

it('is made once, whatever is sent of it again', async () => {
  await take(intake());
  expect(await take(intake('Pat Reed'))).toMatchObject({
    answer: { ok: false, problem: { code: 'entry.made-twice' } },
  });
  const { hunters } = {
    hunters: floor.desk.session()!.book.db.prepare('SELECT name FROM hunter').pluck().all(),
  };
  expect(hunters).toEqual(['Ana Ruiz']);
});

it('that was doubted first keeps its name once it is confirmed', async () => {
  const wrong = intake('Ana Ruiz', { species: 'no-such-species' });
  expect(await take(wrong)).toMatchObject({ taken: true, answer: { ok: false } });
  expect(await take(intake())).toMatchObject({ answer: { ok: true } });
  expect(await take(weigh('90'))).toMatchObject({ answer: { ok: true } });
  expect(weights()).toEqual([{ name: 'Ana Ruiz', typed: '90' }]);
});
