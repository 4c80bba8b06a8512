/** Files of temperature loggers, and the record of a cooler for inspection. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { uploadFile } from '../import/import-file.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const coldRoom = async (shop: FreshDesk): Promise<number> =>
  (await shop.call('coolers.save', { name: 'Cold room', places: 9 })).id;
const FILE = ['Serial,A-17', 'Date,Time,Temp (°F),Humidity', '10/9/2026,6:00 AM,36.0,80', '10/9/2026,8:00 AM,38.0,81', '10/9/2026,10:00 AM,44.0,80', ''].join('\r\n'); // prettier-ignore

describe('a logger’s file', () => {
  it('is previewed before anything is written, and read by its headings', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    const upload = await uploadFile(shop, FILE, 'logger.csv');
    expect(await shop.call('coolers.previewLog', { coolerId, upload })).toMatchObject({
      name: 'logger.csv',
      degrees: 'F',
      dates: 'month first',
      fresh: 3,
      known: 0,
      from: '2026-10-09T12:00:00.000Z',
      to: '2026-10-09T16:00:00.000Z',
      lowestC: 2.2,
      highestC: 6.7,
      problemCount: 0,
    });
    expect((await shop.call('coolers.list', {}))[0]?.readings).toEqual([]);
  });

  it('is imported once, however often it is chosen, and a longer one adds only new readings', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    await shop.call('coolers.importLog', { coolerId, upload: await uploadFile(shop, FILE), by: 'MK' });
    const again = await uploadFile(shop, FILE);
    expect(await shop.problem('coolers.importLog', { coolerId, upload: again })).toMatchObject({
      code: 'logger.nothing-new',
      with: { count: 3 },
    });
    const longer = await uploadFile(shop, `${FILE}10/9/2026,12:00 PM,36.0,80\r\n`);
    expect(await shop.call('coolers.importLog', { coolerId, upload: longer })).toMatchObject({
      readings: 1,
      known: 3,
    });
    const [cooler] = await shop.call('coolers.list', {});
    expect(cooler?.readings.map(({ c }) => c)).toEqual([2.2, 3.3, 6.7, 2.2]);
    expect(cooler?.last).toMatchObject({ c: 2.2, at: '2026-10-09T18:00:00.000Z' });
  });

  it('is undone as a whole: its readings no longer count, stay in the book, and may be imported again', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    await shop.call('coolers.logTemperature', { coolerId, typed: '35', by: 'RO' });
    const { id } = await shop.call('coolers.importLog', { coolerId, upload: await uploadFile(shop, FILE) });
    expect(await shop.call('coolers.undoImport', { id, by: 'MK' })).toEqual({ id, name: 'old.csv' });
    expect((await shop.call('coolers.list', {}))[0]?.readings).toMatchObject([{ by: 'RO' }]);
    expect(await shop.problem('coolers.undoImport', { id })).toMatchObject({ code: 'logger.undone' });
    expect(await shop.problem('coolers.undoImport', { id: 99 })).toMatchObject({ code: 'logger.unknown' });
    expect(await shop.call('coolers.listLogs', { coolerId })).toMatchObject([
      { readings: 3, undoneAt: expect.any(String) },
    ]);
    await shop.call('coolers.importLog', { coolerId, upload: await uploadFile(shop, FILE) });
    expect((await shop.call('coolers.list', {}))[0]?.readings).toHaveLength(4);
    const db = new Database(shop.bookPath, { readonly: true });
    expect(db.prepare('SELECT count(*) FROM cooler_temperature').pluck().get()).toBe(7);
    db.close();
  });

  it('is refused as a whole when rows are wrong, and reports each row', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    const text =
      'Date;Time;Temperature C\n09.10.2026;06:00;2,5\n09.10.2026;25:00;2,5\n09.10.2026;07:00;cold\n09.10.2027;08:00;2,5\n09.10.2026;09:00;\n';
    const upload = await uploadFile(shop, text);
    const look = await shop.call('coolers.previewLog', { coolerId, upload });
    expect(look).toMatchObject({ degrees: 'C', dates: 'day first', fresh: 1, problemCount: 3 });
    expect(look.problems.map(({ row, problem }) => [row, problem.code])).toEqual([
      [3, 'logger.clock'],
      [4, 'temperature.unreadable'],
      [5, 'logger.ahead'],
    ]);
    expect(await shop.problem('coolers.importLog', { coolerId, upload })).toMatchObject({
      code: 'sheet.problems',
      with: { count: 3, row: 3 },
    });
    expect((await shop.call('coolers.list', {}))[0]?.readings).toEqual([]);
    const poem = await uploadFile(shop, 'Roses are red\nviolets are blue\n');
    expect(await shop.problem('coolers.previewLog', { coolerId, upload: poem })).toMatchObject({
      code: 'logger.columns',
    });
  });

  it('handles both hours of the night on which the clock goes back', async () => {
    const shop = await freshDesk('kg', '2026-11-02T15:00:00Z');
    const coolerId = await coldRoom(shop);
    const rows = ['2026-11-01 00:30', '2026-11-01 01:30', '2026-11-01 01:30', '2026-11-01 02:30'];
    const upload = await uploadFile(shop, `Time,Celsius\n${rows.map((row) => `${row},2.0`).join('\n')}\n`);
    await shop.call('coolers.importLog', { coolerId, upload });
    expect((await shop.call('coolers.list', {}))[0]?.readings.map(({ at }) => at.slice(11, 16))).toEqual([
      '06:30', '07:30', '08:30', '09:30',
    ]); // prettier-ignore
  });
});

describe('the record of a cooler', () => {
  it('contains readings with their reader, time above the limit by day, gaps, and voided readings', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    // 40 °F is the limit: 38 at 8, 44 at 10, so above it from 8:40.
    await shop.call('coolers.importLog', { coolerId, upload: await uploadFile(shop, FILE), by: 'MK' });
    await shop.call('coolers.logTemperature', { coolerId, typed: '44', by: 'RO' });
    await shop.call('coolers.logTemperature', { coolerId, typed: '99', by: 'RO' });
    const wrong = (await shop.call('coolers.list', {}))[0]?.readings.find(({ c }) => c > 30)?.id ?? 0;
    await shop.call('coolers.voidTemperature', { readingId: wrong, reason: 'mistyped', by: 'RO' });
    const found = await shop.call('coolers.getRecord', { coolerId, from: '2026-10-08', to: '2026-10-10' });
    expect(found).toMatchObject({ cooler: 'Cold room', readings: 4, limitC: 4.4 });
    expect(found.days.map(({ day, readings }) => [day, readings])).toEqual([
      ['2026-10-08', 0],
      ['2026-10-09', 3],
      ['2026-10-10', 1],
    ]);
    // On the 9th from about 8:40 to midnight (15 h 20 min), on the 10th until 9:00, when it was read by hand.
    expect(found.days[1]?.minutesAbove).toBeGreaterThan(15 * 60);
    expect(found.days[1]?.minutesAbove).toBeLessThan(15.5 * 60);
    expect(found.days[2]?.minutesAbove).toBeCloseTo(9 * 60, 6);
    expect(found.days.reduce((sum, one) => sum + one.minutesAbove, 0)).toBeCloseTo(found.minutesAbove, 6);
    expect(found.gaps.map(({ minutes }) => minutes / 60)).toEqual([30, 23]);
    expect(found.byHand).toMatchObject([{ typed: '44', by: 'RO' }]);
    expect(found.files).toMatchObject([{ file: 'old.csv', readings: 3, by: 'MK' }]);
    expect(found.voided).toMatchObject([{ typed: '99', reason: 'mistyped', by: 'RO' }]);
  });

  it('requires ordered dates, and works for an archived cooler', async () => {
    const shop = await freshDesk();
    const coolerId = await coldRoom(shop);
    await shop.call('coolers.archive', { id: coolerId });
    const days = { from: '2026-10-01', to: '2026-10-02' };
    expect(await shop.call('coolers.getRecord', { coolerId, ...days })).toMatchObject({ readings: 0 });
    expect(await shop.problem('coolers.getRecord', { coolerId: 9, ...days })).toMatchObject({
      code: 'cooler.unknown',
    });
    const wrong = [{ from: '2026-10-02', to: '2026-10-01' }, { from: '2020-01-01', to: '2026-10-01' }]; // prettier-ignore
    for (const span of wrong)
      expect(await shop.problem('coolers.getRecord', { coolerId, ...span })).toMatchObject({
        code: 'cooler.record-days',
      });
  });
});

it('never rewrites where an animal hung', async () => {
  const shop = await freshDesk();
  const coolerId = await coldRoom(shop);
  await shop.call('animals.hang', { ids: [await takeIn(shop)], coolerId, place: 'hook 4' });
  const db = new Database(shop.bookPath);
  for (const sql of ["UPDATE cooler_stay SET place = 'hook 5'", 'DELETE FROM cooler_stay'])
    expect(() => db.exec(sql)).toThrow('cooler_stay is written once');
  db.close();
});
