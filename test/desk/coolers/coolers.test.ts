/** Coolers: what hangs where, how full, how cold, and for how long it was too warm. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const HOUR = 3600;

async function coldRoom(shop: FreshDesk, places = 2) {
  return (await shop.call('coolers.save', { name: 'Cold room', places })).id;
}

describe('a cooler', () => {
  it('has animals at places, reports where each hangs, and counts only hanging ones', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    const [one, two] = [await takeIn(shop), await takeIn(shop)];
    await shop.call('animals.hang', { ids: [one, two], coolerId });
    await shop.call('animals.hang', { ids: [one], coolerId, place: 'hook 4' });
    const { hooks } = await shop.call('rail.get', {});
    expect(hooks.map(({ cooler, place }) => [cooler, place])).toEqual([
      ['Cold room', 'hook 4'],
      ['Cold room', null],
    ]);
    expect((await shop.call('animals.get', { id: one })).where).toBe('Cold room, hook 4');
    await shop.call('animals.setStage', { id: two, stage: 'packing' });
    expect((await shop.call('coolers.list', {}))[0]).toMatchObject({ places: 2, hanging: 1 });
    expect((await shop.call('shop.get', {})).coolers[0]).toMatchObject({ name: 'Cold room', hanging: 1 });
    expect((await shop.call('animals.get', { id: two })).where).toBeNull();
  });

  it('reports that it is too full but accepts the animal, and refuses one that no longer hangs', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop, 1);
    const [one, two, done] = [await takeIn(shop), await takeIn(shop), await takeIn(shop)];
    expect(await shop.call('animals.hang', { ids: [one, two, two], coolerId })).toEqual({
      cooler: 'Cold room',
      places: 1,
      hanging: 2,
    });
    await shop.call('animals.setStage', {
      id: done,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    expect(await shop.problem('animals.hang', { ids: [done], coolerId })).toMatchObject({
      code: 'animal.not-hanging',
      with: { ticket: '26-0003' },
    });
    expect(await shop.problem('animals.hang', { ids: [one], coolerId: 9 })).toMatchObject({
      code: 'cooler.unknown',
    });
  });

  it('is renamed, has a unique name, and is archived only when empty', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    expect(await shop.problem('coolers.save', { name: 'cold ROOM', places: 3 })).toMatchObject({
      code: 'cooler.twice',
    });
    await shop.call('coolers.save', { id: coolerId, name: 'Cold room 1', places: 20 });
    expect((await shop.call('coolers.list', {}))[0]).toMatchObject({ name: 'Cold room 1', places: 20 });
    const id = await takeIn(shop);
    await shop.call('animals.hang', { ids: [id], coolerId });
    expect(await shop.problem('coolers.archive', { id: coolerId })).toMatchObject({
      code: 'cooler.in-use',
      with: { cooler: 'Cold room 1', count: 1 },
    });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('coolers.archive', { id: coolerId });
    expect(await shop.call('coolers.list', {})).toEqual([]);
    await shop.call('coolers.save', { name: 'Cold room 1', places: 5 });
  });

  it('puts an archived cooler in use again, unless another has its name', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    const inUse = async () => (await shop.call('coolers.list', {})).map(({ id }) => id);
    expect(await shop.problem('coolers.restore', { id: coolerId })).toMatchObject({ code: 'cooler.unknown' });
    await shop.call('coolers.archive', { id: coolerId });
    await shop.call('coolers.restore', { id: coolerId });
    expect(await inUse()).toEqual([coolerId]);
    await shop.call('coolers.archive', { id: coolerId });
    const { id: other } = await shop.call('coolers.save', { name: 'COLD room', places: 5 });
    expect(await shop.problem('coolers.restore', { id: coolerId })).toMatchObject({ code: 'cooler.twice' });
    expect(await inUse()).toEqual([other]);
  });

  it('sums the time above the limit, by linear interpolation between readings', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    expect((await shop.call('coolers.list', {}))[0]).toMatchObject({
      last: null,
      above: false,
      minutesAbove: 0,
      longestGapMinutes: null,
    });
    // Limit 4.4 °C. 3.4 → 5.4 in two hours: above for one hour; then an hour at 5.4; then down to 3.4 in two: one hour.
    for (const typed of ['3.4 C', '5.4C', '5,4 c', '3.4 C']) {
      await shop.call('coolers.logTemperature', { coolerId, typed, by: 'RO' });
      shop.wait(typed === '5.4C' ? HOUR : 2 * HOUR);
    }
    const [cooler] = await shop.call('coolers.list', {});
    expect(cooler?.minutesAbove).toBeCloseTo(60 + 60 + 60, 6);
    expect(cooler).toMatchObject({ above: false, longestGapMinutes: 120, last: { c: 3.4 } });
    await shop.call('coolers.logTemperature', { coolerId, typed: '41' });
    expect((await shop.call('coolers.list', {}))[0]).toMatchObject({ above: true, last: { c: 5 } });
    // Three days on nothing of it counts any more, but that nobody read it since does.
    shop.wait(80 * HOUR);
    expect((await shop.call('coolers.list', {}))[0]).toMatchObject({
      above: true,
      minutesAbove: 0,
      longestGapMinutes: 80 * 60,
      readings: [],
    });
  });

  it('stands at the moment at which it was read, though it arrives later, and none from the future is taken', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    const typeTime = (at: string) => {
      const parts = new Intl.DateTimeFormat('en-CA', {
        timeZone: 'America/Denver',
        dateStyle: 'short',
        timeStyle: 'short',
        hourCycle: 'h23',
      }).format(new Date(at));
      const [on = '', time = ''] = parts.split(', ');
      return { on, time };
    };
    await shop.call('coolers.logTemperature', { coolerId, typed: '3 C' });
    const [{ readings: [first] = [] } = {}] = await shop.call('coolers.list', {});
    const began = Date.parse(first?.at ?? '');
    const hourLater = new Date(began + 1000 * HOUR).toISOString();
    shop.wait(2 * HOUR);
    await shop.call('coolers.logTemperature', { coolerId, typed: '4 C' });
    await shop.call('coolers.logTemperature', { coolerId, typed: '9 C', earlier: typeTime(hourLater) });
    const [cooler] = await shop.call('coolers.list', {});
    expect(cooler?.readings.map(({ c }) => c)).toEqual([3, 9, 4]);
    expect(cooler?.readings[1]?.at).toBe(hourLater);
    expect(cooler?.last).toMatchObject({ c: 4 });
    const ahead = { coolerId, typed: '4 C', earlier: typeTime(new Date(began + 3000 * HOUR).toISOString()) };
    expect(await shop.problem('coolers.logTemperature', ahead)).toMatchObject({
      code: 'temperature.future',
      field: 'earlier',
    });
  });

  it('refuses an invalid temperature, naming the field', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    expect(await shop.problem('coolers.logTemperature', { coolerId, typed: 'cold' })).toMatchObject({
      code: 'temperature.unreadable',
      field: 'typed',
    });
    expect(await shop.problem('coolers.logTemperature', { coolerId, typed: '400' })).toMatchObject({
      code: 'temperature.range',
    });
  });
});

describe('a voided temperature', () => {
  it('no longer counts, stays in the book with its reason, and is voided only once', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    await shop.call('coolers.logTemperature', { coolerId, typed: '3 C', by: 'RO' });
    shop.wait(HOUR);
    await shop.call('coolers.logTemperature', { coolerId, typed: '30 C', by: 'RO' });
    const [warm] = await shop.call('coolers.list', {});
    expect(warm).toMatchObject({ above: true, last: { c: 30 } });
    const readingId = warm?.readings.at(-1)?.id ?? 0;
    expect(await shop.problem('coolers.voidTemperature', { readingId, reason: ' ' })).toMatchObject({
      code: 'text.needed',
    });
    await shop.call('coolers.voidTemperature', { readingId, reason: 'mistyped', by: 'MK' });
    expect((await shop.call('coolers.list', {}))[0]).toMatchObject({
      above: false,
      minutesAbove: 0,
      last: { c: 3 },
      readings: [{ c: 3, by: 'RO' }],
    });
    expect(await shop.problem('coolers.voidTemperature', { readingId, reason: 'again' })).toMatchObject({
      code: 'temperature.voided',
      with: { by: 'MK' },
    });
    expect(await shop.problem('coolers.voidTemperature', { readingId: 99, reason: 'x' })).toMatchObject({
      code: 'temperature.unknown',
    });
    const db = new Database(shop.bookPath, { readonly: true });
    expect(db.prepare('SELECT typed FROM cooler_temperature ORDER BY id').pluck().all()).toEqual([
      '3 C',
      '30 C',
    ]);
    expect(db.prepare('SELECT reason, by FROM cooler_temperature_void').all()).toEqual([
      { reason: 'reason:mistyped', by: 'MK' },
    ]);
    db.close();
  });
});
