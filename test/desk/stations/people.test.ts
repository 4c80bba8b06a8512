/** Staff sign in with initials and a PIN where the shop wants it; the trail says who wrote at which station. */
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { takeIn } from '../fresh-desk.ts';
import { freshFloor, outbox, type Floor } from './floor.ts';

let floor: Floor;
let table: Awaited<ReturnType<Floor['pair']>>;
beforeEach(async () => {
  floor = await freshFloor();
  for (const initials of ['MK', 'RB']) await floor.call('shop.addStaff', { initials, name: initials });
  await floor.call('stations.setPin', { initials: 'RB', pin: '2480', by: 'MK' });
  await floor.call('stations.setUp', { on: true, address: '192.168.77.1', pins: true, by: 'MK' });
  table = await floor.pair('table');
});
afterEach(() => floor.desk.close());

const signIn = (pin: string, initials = 'RB', secret = table.secret) =>
  floor.door.signIn(secret, initials, pin);
const wrong = (left: number) => ({ problem: { code: 'person.wrong-pin', with: { left } } });
const rows = (sql: string): unknown[] => {
  const db = new Database(floor.bookPath, { readonly: true });
  try {
    return db.prepare(sql).all();
  } finally {
    db.close();
  }
};
const weigh = (id: number) => ({ animalId: id, stage: 'cut', part: 'trim', typed: '12.5', by: 'XX' });
const callAs = async (person: string | undefined, name: string, input: unknown) => {
  const { opening } = await floor.call('shop.get', {});
  return floor.door.call(table.secret, { name, input, opening, person });
};

describe('a PIN', () => {
  it('is kept as a hash of its own salt', async () => {
    await floor.call('stations.setPin', { initials: 'MK', pin: '2480' });
    const kept = rows('SELECT initials, salt, hash FROM staff_pin') as { salt: string; hash: string }[];
    expect(JSON.stringify(kept)).not.toContain('2480');
    expect(new Set(kept.map(({ hash }) => hash)).size).toBe(2);
    expect((await floor.call('stations.get', {})).withPin).toEqual(['MK', 'RB']);
  });

  it.each(['123', '123456789', '12a4', '１２３４', ''])('is not %j', async (pin) => {
    expect(await floor.problem('stations.setPin', { initials: 'RB', pin })).toMatchObject({
      code: 'person.pin',
    });
  });

  it('is of the staff', async () => {
    const stranger = { initials: 'ZZ', pin: '2480' };
    expect(await floor.problem('stations.setPin', stranger)).toMatchObject({ code: 'person.unknown' });
    await expect(signIn('2480', 'ZZ')).rejects.toMatchObject(wrong(4));
    await expect(signIn('2480', 'MK')).rejects.toMatchObject(wrong(3));
  });

  it('that was taken away or changed no longer opens, and ends what it opened', async () => {
    const { person } = await signIn('2480');
    await floor.call('stations.clearPin', { initials: 'RB' });
    expect(await callAs(person, 'table.weigh', weigh(await takeIn(floor)))).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
    await expect(signIn('2480')).rejects.toMatchObject(wrong(4));
  });
});

describe('wrong PINs', () => {
  it('after five there is a wait of 30 s, which each further one doubles', async () => {
    for (const left of [4, 3, 2, 1, 0]) await expect(signIn('0000')).rejects.toMatchObject(wrong(left));
    await expect(signIn('2480')).rejects.toMatchObject({
      problem: { code: 'person.wait', with: { seconds: 30 } },
    });
    floor.wait(30);
    await expect(signIn('0000')).rejects.toMatchObject(wrong(0));
    floor.wait(59);
    await expect(signIn('2480')).rejects.toMatchObject({ problem: { with: { seconds: 1 } } });
    floor.wait(1);
    expect(await signIn('2480')).toMatchObject({ initials: 'RB' });
    await expect(signIn('0000')).rejects.toMatchObject(wrong(4));
  });

  it('tried at the same time are no more than in turn', async () => {
    const tries = await Promise.allSettled(Array.from({ length: 12 }, () => signIn('0000')));
    const codes = tries.map((one) => (one.status === 'rejected' ? (one.reason as Error).message : 'in'));
    expect(codes.filter((code) => code === 'person.wrong-pin')).toHaveLength(5);
    expect(codes.filter((code) => code === 'person.wait')).toHaveLength(7);
  });

  it('shut out one person at one station only', async () => {
    await floor.call('stations.setPin', { initials: 'MK', pin: '1357' });
    for (let i = 0; i < 5; i++) await expect(signIn('0000')).rejects.toThrow();
    const other = await floor.pair('cooler');
    expect(await signIn('2480', 'RB', other.secret)).toMatchObject({ initials: 'RB' });
    expect(await signIn('1357', 'mk')).toMatchObject({ initials: 'MK' });
  });
});

describe('who wrote', () => {
  it('nobody who is not signed in, where people sign in; anybody may look', async () => {
    const id = await takeIn(floor);
    expect(await callAs(undefined, 'table.weigh', weigh(id))).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
    expect(await callAs('guessed', 'table.weigh', weigh(id))).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
    expect(await callAs(undefined, 'rail.get', {})).toMatchObject({ ok: true });
  });

  it('stands in the trail with the station, under the initials that were checked', async () => {
    const id = await takeIn(floor);
    const { person } = await signIn('2480');
    const answer = await callAs(person, 'table.weigh', weigh(id));
    const { weighingId } = (answer as { value: { weighingId: number } }).value;
    const who = { station_id: table.id, person: 'RB', checked: 1 };
    expect(rows(`SELECT * FROM station_write WHERE record_id = '${weighingId}'`)).toMatchObject([
      { ...who, call: 'table.weigh' },
    ]);
    expect(rows(`SELECT by FROM weighing WHERE id = ${weighingId}`)).toEqual([{ by: 'RB' }]);
    await callAs(person, 'animals.setStage', { id, stage: 'cutting' });
    expect(rows('SELECT station_id, person, checked FROM audit ORDER BY id DESC LIMIT 1')).toEqual([who]);
    await floor.call('animals.setDetail', { id, detail: 'quick' });
    expect(rows('SELECT DISTINCT station_id FROM audit WHERE station_id IS NULL')).toEqual([
      { station_id: null },
    ]);
  });

  it('at another station is not who signed in here', async () => {
    const { person } = await signIn('2480');
    const other = await floor.pair('table', 'Table 9');
    const { opening } = await floor.call('shop.get', {});
    const input = weigh(await takeIn(floor));
    expect(
      await floor.door.call(other.secret, { name: 'table.weigh', input, opening, person }),
    ).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
  });

  it('is nobody any more after ten idle minutes, or who signed out', async () => {
    const id = await takeIn(floor);
    const { person } = await signIn('2480');
    floor.wait(9 * 60);
    expect(await callAs(person, 'table.weigh', weigh(id))).toMatchObject({ ok: true });
    floor.wait(10 * 60 + 1);
    expect(await callAs(person, 'table.weigh', weigh(id))).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
    const again = await signIn('2480');
    floor.door.signOut(table.secret, again.person);
    expect(await callAs(again.person, 'table.weigh', weigh(id))).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
  });

  it('of an entry typed offline is only said, unless the session still lasts', async () => {
    const id = await takeIn(floor);
    const entry = outbox(floor, table.secret);
    const { person } = await signIn('2480');
    await floor.door.take(table.secret, entry('table.weigh', { ...weigh(id), by: 'RB' }, { person }));
    floor.wait(3600);
    await floor.door.take(
      table.secret,
      entry('table.weigh', { ...weigh(id), typed: '13', by: 'RB' }, { person }),
    );
    expect(rows('SELECT person, checked FROM station_entry ORDER BY number')).toEqual([
      { person: 'RB', checked: 1 },
      { person: 'RB', checked: 0 },
    ]);
    expect(rows('SELECT person, checked FROM station_write ORDER BY id DESC LIMIT 2')).toEqual([
      { person: 'RB', checked: 0 },
      { person: 'RB', checked: 1 },
    ]);
  });
});
