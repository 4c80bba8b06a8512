import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { uploadFile } from '../import/import-file.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { CASING, GOOD, importLog, loadOf, logFile, readingsAlong, SHORT } from './load-of.ts';
import { opened, stuffed, summerSausage, trimOf } from './made-of.ts';

let shop: FreshDesk;
beforeEach(async () => (shop = await freshDesk()));
afterEach(() => shop.desk.close());

const codes = (of: readonly { code: string }[]): string[] => of.map(({ code }) => code);

describe('a load with a log that meets the figures', () => {
  it('lets the label say ready to eat, once it is checked, and until anything changes', async () => {
    const { loadId, madeId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    const page = await shop.call('loads.get', { id: loadId });
    expect(page.now).toMatchObject({
      cook: { answer: 'meets-figures' },
      cooling: { answer: 'meets-figures' },
    });
    const proofOf = async () => (await shop.call('made.label', { id: madeId })).proof;
    expect(codes((await proofOf()).missing)).toEqual(['proof.not-judged']);
    await shop.call('loads.judge', { id: loadId });
    expect(await shop.call('made.label', { id: madeId })).toMatchObject({
      state: 'ready to eat',
      cookTo: null,
      proof: { readyToEat: true, missing: [] },
    });
    // To close a load changes nothing of its cook, and neither does opening it again.
    await shop.call('loads.close', { id: loadId });
    expect(await proofOf()).toMatchObject({ readyToEat: true, missing: [] });
    await shop.call('loads.reopen', { id: loadId, reason: 'one more reading' });
    expect(await proofOf()).toMatchObject({ readyToEat: true, missing: [] });
    await shop.call('loads.reading', { id: loadId, probe: 'P2', phase: 'cook', degrees: 'F', typed: '150' });
    expect(codes((await proofOf()).missing)).toEqual(['proof.changed']);
    expect((await shop.call('made.label', { id: madeId })).state).toBe('cooked');
  });

  it('shows what it had to reach with the error of the thermometer, and how it did', async () => {
    const { loadId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    const { target, curves, lastF, readings } = await shop.call('loads.get', { id: loadId });
    expect(target).toMatchObject({
      atOnceF: 159,
      hostF: null,
      comeUp: { fromF: 50, toF: 130, minutes: 360 },
    });
    expect(readings).toBe(561);
    expect(lastF).toBe(38);
    expect(curves).toHaveLength(1);
    expect(curves[0]).toMatchObject({ probe: 'P1', highestF: 160, answer: 'meets-figures' });
    // Surely at 130 °F in minute 244 (132 °F), surely at 80 °F in minute 326 (78.9 °F): 82. From 81.3 °F in minute 318 to 38.9 °F in
    // minute 555: 237.
    expect(curves[0]?.cooling.map(({ minutes }) => minutes)).toEqual([82, 237]);
    expect(curves[0]!.points.length).toBeLessThanOrEqual(400);
    expect(curves[0]!.points.at(-1)?.f).toBe(38);
  });
});

describe('a load that falls short', () => {
  it('is not met, with what and how much, and no label says ready to eat', async () => {
    const { loadId, madeId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(SHORT)));
    const { cook } = await shop.call('loads.judge', { id: loadId });
    expect(cook.answer).toBe('not-met');
    expect(codes(cook.notMet)).toContain('dwell.short');
    const label = await shop.call('made.label', { id: madeId });
    expect(label).toMatchObject({ state: 'cooked', cookTo: { f: 165 }, proof: { readyToEat: false } });
    expect(codes(label.proof.missing)).toContain('proof.cook');
  });

  it('is proven by a second cook once somebody decided so', async () => {
    const { loadId, madeId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(SHORT)));
    await shop.call('loads.judge', { id: loadId });
    expect(await shop.problem('loads.open', { oven: '', madeIds: [madeId] })).toMatchObject({
      code: 'load.elsewhere',
    });
    await shop.call('loads.close', { id: loadId });
    const second = await shop.call('loads.open', { oven: '', madeIds: [madeId] });
    await importLog(shop, second.id, logFile(readingsAlong(GOOD)));
    await shop.call('loads.judge', { id: second.id });
    const proof = async () => (await shop.call('made.get', { id: madeId })).proof;
    expect(codes((await proof()).missing)).toEqual(['proof.earlier']);
    const { id: decision } = await shop.call('loads.decide', {
      loadId, decided: 'cook again', decidedBy: 'Mika Koski', note: 'stayed below 140',
    }); // prettier-ignore
    expect(await proof()).toMatchObject({ readyToEat: true, missing: [] });
    const decided = async () => (await shop.call('loads.list', {})).recent.map((one) => one.decided);
    expect(await decided()).toEqual(['cook again']);
    await shop.call('loads.voidDecision', { id: decision, reason: 'of another load' });
    expect((await proof()).readyToEat).toBe(false);
    expect(await decided()).toEqual([null]);
  });

  it('stays so when an authority decided otherwise: that proves nothing here', async () => {
    const { loadId, madeId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(SHORT)));
    await shop.call('loads.judge', { id: loadId });
    const told = { decided: 'authority', decidedBy: 'State inspector', note: 'letter of Oct 12' } as const;
    await shop.call('loads.decide', { loadId, ...told });
    expect((await shop.call('made.get', { id: madeId })).proof.readyToEat).toBe(false);
    expect(await shop.problem('loads.decide', { loadId, madeId, ...told })).toMatchObject({
      code: 'decision.of-one',
    });
  });

  it('keeps a batch that was put on hold from being ready to eat, even when its cook is proven', async () => {
    const { loadId, madeId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    await shop.call('loads.judge', { id: loadId });
    await shop.call('loads.decide', { madeId, decided: 'hold', decidedBy: 'Mika Koski', note: 'fell down' });
    const { proof } = await shop.call('made.label', { id: madeId });
    expect(proof).toMatchObject({ readyToEat: false, missing: [{ code: 'proof.decided' }] });
  });
});

describe('a log that is odd', () => {
  const judged = async (content: string) => {
    const { loadId } = await loadOf(shop);
    await importLog(shop, loadId, content);
    const { now, curves, logs } = await shop.call('loads.get', { id: loadId });
    return { loadId, cook: now!.cook, cooling: now!.cooling, faults: codes(curves[0]!.faults), logs };
  };
  const good = readingsAlong(GOOD);
  const with_ = (at: number, value: number | string) =>
    good.map(([minutes, f]) => [minutes, minutes === at ? value : f] as const);

  it.each([
    ['a broken sensor', with_(210, 999), 'reading.sensor'],
    ['a broken sensor below zero', with_(210, -40), 'reading.sensor'],
    ['no number', with_(210, 'ERR'), 'reading.missing'],
    ['a reading in the other scale', with_(210, 71.1), 'reading.degrees'],
    ['a reading twice', [...good.slice(0, 211), good[210]!, ...good.slice(211)], 'reading.double'],
    ['rows out of order', [...good.slice(100), ...good.slice(0, 100)], 'log.order'],
    [
      'a clock that jumped back',
      good.map(([at, f]) => [at > 210 ? at - 60 : at, f] as const),
      'log.clock-back',
    ],
    [
      'a whole log in the other scale',
      good.map(([at, f]) => [at, ((f - 32) / 1.8).toFixed(1)] as const),
      'log.degrees',
    ],
  ] as const)('%s is named, kept, and never met', async (_, readings, code) => {
    const { cook, faults, logs } = await judged(logFile(readings));
    expect(faults).toContain(code);
    expect(cook.answer).toBe('not-proven');
    expect(codes(cook.missing)).toContain(code);
    expect(logs[0]?.readings).toBe(readings.length);
  });

  it('with a gap in the cook is not proven', async () => {
    const { cook } = await judged(logFile(good.filter(([at]) => at < 150 || at > 175)));
    expect(cook.answer).toBe('not-proven');
    expect(codes(cook.missing)).toContain('log.gap');
  });

  it('that ends while it is warm is incomplete, never met', async () => {
    const { cook, cooling } = await judged(logFile(good.filter(([at]) => at < 400)));
    expect(cook.answer).toBe('meets-figures');
    expect(cooling.answer).toBe('not-proven');
    expect(codes(cooling.missing)).toContain('cooling.incomplete');
  });

  it('counts without a reading that somebody left out, which stays in the log', async () => {
    const { loadId, cook } = await judged(logFile(with_(210, 999)));
    expect(cook.answer).toBe('not-proven');
    const [fault] = (await shop.call('loads.get', { id: loadId })).curves[0]!.faults;
    await shop.call('loads.exclude', { readingId: fault!.readingId, reason: 'probe pulled out' });
    expect(await shop.problem('loads.exclude', { readingId: fault!.readingId, reason: 'x' })).toMatchObject({
      code: 'load.excluded',
    });
    const page = await shop.call('loads.get', { id: loadId });
    expect(page.now?.cook.answer).toBe('meets-figures');
    expect(page.logs[0]).toMatchObject({ readings: 561, excluded: 1 });
    const { readings } = await shop.call('loads.readings', { logId: page.logs[0]!.id, from: 200 });
    expect(readings[10]).toMatchObject({
      typed: '999',
      value: 999,
      excluded: { reason: 'probe pulled out' },
    });
    await shop.call('loads.include', { readingId: fault!.readingId, reason: 'it was right' });
    expect((await shop.call('loads.get', { id: loadId })).now?.cook.answer).toBe('not-proven');
  });

  it('is looked through before it is imported, and taken once', async () => {
    const { loadId } = await loadOf(shop);
    const content = logFile(with_(210, 999));
    const upload = await uploadFile(shop, content, 'cook.csv');
    expect(await shop.call('loads.previewLog', { id: loadId, upload })).toMatchObject({
      name: 'cook.csv', degrees: 'F', readings: 561, highestF: 160, problemCount: 0, known: false,
      faults: [{ code: 'reading.sensor', count: 1 }],
    }); // prettier-ignore
    await importLog(shop, loadId, content);
    const again = await uploadFile(shop, content, 'again.csv');
    const input = { id: loadId, upload: again, probe: 'P1', phase: 'both' };
    expect(await shop.problem('loads.importLog', input)).toMatchObject({ code: 'load.file-known' });
  });

  it('with a row that has no time is refused whole, naming the row', async () => {
    const { loadId } = await loadOf(shop);
    const upload = await uploadFile(shop, `${logFile(good)}10/9/2026,soon,40\n`);
    const input = { id: loadId, upload, probe: 'P1', phase: 'both' };
    expect(await shop.problem('loads.importLog', input)).toMatchObject({
      code: 'sheet.problems', with: { count: 1, row: 563 },
    }); // prettier-ignore
    expect((await shop.call('loads.get', { id: loadId })).logs).toEqual([]);
  });
});

describe('what is written down of a cook', () => {
  it('stands in for nothing: without humidity a batch without a casing is not proven', async () => {
    const made = await stuffed(shop);
    const { id } = await shop.call('loads.open', { oven: '', madeIds: [made.id] });
    await importLog(shop, id, logFile(readingsAlong(GOOD)));
    const before = await shop.call('loads.get', { id });
    expect(codes(before.now!.cook.missing)).toEqual(['humidity.record']);
    const ovenStart = '2026-10-09T12:00:00.000Z';
    const record = { ...before.record, humidity: { kind: 'humid-all', minutes: 230 } as const, ovenStart };
    await shop.call('loads.record', { id, record: { ...record, ovenEnd: '2026-10-09T15:50:00.000Z' } });
    expect((await shop.call('loads.get', { id })).now?.cook.answer).toBe('meets-figures');
    const backwards = { id, record: { ...record, ovenEnd: ovenStart } };
    expect(await shop.problem('loads.record', backwards)).toMatchObject({ code: 'cook.reversed' });
  });

  it('a casing excuses no batch without one that came in later', async () => {
    const { loadId } = await loadOf(shop);
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    const naked = await stuffed(shop);
    await shop.call('loads.add', { id: loadId, madeId: naked.id });
    const { now } = await shop.call('loads.get', { id: loadId });
    expect(codes(now!.cook.missing)).toEqual(['humidity.record']);
  });

  it('takes typed readings of a thermometer, earlier ones too, and none from the future', async () => {
    const { loadId } = await loadOf(shop);
    const read = { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F' } as const;
    await shop.call('loads.reading', {
      ...read,
      typed: '152.5',
      earlier: { on: '2026-10-10', time: '8:30' },
    });
    await shop.call('loads.reading', { ...read, typed: '70 C' });
    const { logs, lastF } = await shop.call('loads.get', { id: loadId });
    expect(logs).toMatchObject([{ source: 'typed', readings: 2 }]);
    expect(lastF).toBe(158);
    const { readings } = await shop.call('loads.readings', { logId: logs[0]!.id });
    expect(readings.map(({ readAt, typed }) => [readAt, typed])).toEqual([
      ['2026-10-10T14:30:00.000Z', '152.5'],
      ['2026-10-10T15:00:00.000Z', '70 C'],
    ]);
    expect(await shop.problem('loads.reading', { ...read, typed: 'hot' })).toMatchObject({
      code: 'temperature.unreadable',
    });
    const later = { ...read, typed: '150', earlier: { on: '2026-10-10', time: '20:00' } };
    expect(await shop.problem('loads.reading', later)).toMatchObject({ code: 'load.future' });
  });
});

describe('a Trichinella host in a load', () => {
  it('sets its target to 165 °F, though the table is met', async () => {
    const { recipeId, pink } = await summerSausage(shop, { casing: CASING });
    const bear = await trimOf(shop, '100', { species: 'black-bear' });
    const { id } = await opened(shop, recipeId, { [bear]: '100' });
    await shop.call('made.start', { id });
    await shop.call('made.weigh', { id, ingredientId: pink, typed: '113', lot: 'A-7' });
    await shop.call('made.stage', { id, stage: 'stuffed', typed: '100' });
    const { id: loadId } = await shop.call('loads.open', { oven: '', madeIds: [id] });
    await importLog(shop, loadId, logFile(readingsAlong(GOOD)));
    const page = await shop.call('loads.get', { id: loadId });
    expect(page).toMatchObject({ hosts: ['Black bear'], target: { hostF: 166 } });
    expect(page.now?.cook.answer).toBe('not-met');
    expect(codes(page.now!.cook.notMet)).toEqual(['host.below']);
  });
});

describe('a load', () => {
  it('takes only what is stuffed and wants heat', async () => {
    const { recipeId } = await summerSausage(shop);
    const a = await trimOf(shop, '40');
    const { id } = await opened(shop, recipeId, { [a]: '40' });
    await shop.call('made.start', { id });
    expect(await shop.problem('loads.open', { oven: '', madeIds: [id] })).toMatchObject({
      code: 'made.not-stuffed',
    });
    const raw = await stuffed(shop, { finish: 'raw', readyToEat: false, heat: null });
    expect(await shop.problem('loads.open', { oven: '', madeIds: [raw.id] })).toMatchObject({
      code: 'load.raw',
    });
    const { id: madeId } = await stuffed(shop);
    expect((await shop.call('loads.list', {})).waiting.map((one) => one.id)).toEqual([madeId]);
  });

  it('that is closed takes nothing more until it is reopened', async () => {
    const { loadId, madeId } = await loadOf(shop);
    await shop.call('loads.close', { id: loadId });
    const reading = { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F', typed: '150' };
    expect(await shop.problem('loads.reading', reading)).toMatchObject({ code: 'load.closed' });
    expect(await shop.call('loads.list', {})).toMatchObject({
      open: [],
      recent: [{ id: loadId }],
      ovens: ['Big one'],
    });
    await shop.call('loads.reopen', { id: loadId, reason: 'another probe' });
    await shop.call('loads.reading', reading as never);
    const { batches } = (await shop.call('loads.list', {})).open[0]!;
    expect(batches).toMatchObject([{ madeId }]);
    await shop.call('loads.remove', {
      id: loadId,
      loadBatchId: batches[0]!.loadBatchId,
      reason: 'other truck',
    });
    expect((await shop.call('loads.get', { id: loadId })).batches).toEqual([]);
  });

  it('tells when it is likely done by the rate of its last hour', async () => {
    const { loadId } = await loadOf(shop);
    const read = { id: loadId, probe: 'P1', phase: 'cook', degrees: 'F' } as const;
    await shop.call('loads.reading', { ...read, typed: '120', earlier: { on: '2026-10-10', time: '8:15' } });
    await shop.call('loads.reading', { ...read, typed: '134', earlier: { on: '2026-10-10', time: '8:57' } });
    // 20 °F an hour: 159 °F, 25 more, an hour and a quarter after 8:57.
    expect((await shop.call('loads.get', { id: loadId })).doneAt).toBe('2026-10-10T16:12:00.000Z');
  });
});
