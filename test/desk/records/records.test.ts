/** The record book as an officer asks for it: what is missing, what was late, what may go, and whether the numbers are whole. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { RECORD_SETS, requiredBy } from '../../../src/desk/input/record-sets.ts';
import { importTable } from '../import/import-file.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';

const WHOLE = {
  hunter: { name: 'Dana Whitlock', address: '4 Mill Lane, Elk Fork', licence: 'H-77' },
  tag: 'E-1017',
  killDate: '2026-10-08',
  killArea: 'Unit 23',
} as const;
const only = async (shop: Awaited<ReturnType<typeof freshDesk>>, input: CallInput<'records.list'> = {}) => {
  const [row, ...more] = await shop.call('records.list', input);
  expect(more).toEqual([]);
  if (!row) throw new Error('There is no entry.');
  return row;
};

describe('what is missing', () => {
  it('is nothing of a whole entry, and each field that is empty', async () => {
    const shop = await freshDesk();
    await takeIn(shop, WHOLE);
    expect((await only(shop)).lacks).toEqual([]);
    const bare = await takeIn(shop, { hunter: { name: 'Bo Rask' } });
    const row = (await shop.call('records.list', { text: 'rask' })).find(({ id }) => id === bare);
    expect(row?.lacks).toEqual(['address', 'licence', 'tag', 'killDate', 'killArea']);
  });

  it('is what the shop requires, no more and no less', async () => {
    const shop = await freshDesk();
    await takeIn(
      shop,
      { hunter: { name: 'Bo Rask' }, sex: 'unknown', deliverer: { name: 'Al Rask', address: '' } },
      null,
    );
    const lacking = async (recordFields: CallInput<'shop.saveSettings'>['changes']['recordFields']) => {
      await shop.call('shop.saveSettings', { changes: { recordFields } });
      return (await only(shop)).lacks;
    };
    expect(await lacking([])).toEqual([]);
    expect(await lacking(['sex', 'phone'])).toEqual(['phone', 'sex']);
    expect(await lacking(['delivererAddress', 'weight'])).toEqual(['delivererAddress', 'weight']);
    expect(
      await shop.problem('shop.saveSettings', { changes: { recordFields: ['shoe size'] } }),
    ).toMatchObject({
      code: 'choice.record-field',
    });
  });

  it('is nothing that was taken out of the book on purpose', async () => {
    const shop = await freshDesk('lb', '2022-10-10T15:00:00Z');
    const id = await takeIn(shop, { hunter: WHOLE.hunter });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    shop.wait(4 * 366 * 86_400);
    await shop.call('shop.trustClock', {});
    const owner = (await shop.call('animals.get', { id })).hunter.id;
    await shop.call('hunters.removeDetails', { id: owner, reason: 'asked for it' });
    expect((await only(shop, { season: 2022 })).lacks).toEqual([]);
    const page = await shop.call('animals.get', { id });
    expect([page.lacks, page.hunter.address]).toEqual([[], '']);
    const [story] = await shop.call('animals.getHistory', { id });
    expect(story).toMatchObject({ what: 'owner-changed', facts: { act: 'void' }, reason: 'asked for it' });
  });

  it('is no licence, tag or kill report of farm stock', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { hunter: { name: 'Elk Fork Farm', address: 'Elk Fork' }, origin: 'farm' });
    expect((await only(shop)).lacks).toEqual([]);
  });
});

describe('an agency’s list', () => {
  it.each(RECORD_SETS)('of $place says where it was read and asks for nothing unknown', (set) => {
    expect(set.source.title).not.toBe('');
    expect(set.source.read).toMatch(/^\d{4}-\d\d-\d\d$/);
    if (set.code !== 'general') expect(set.source.address).toMatch(/^https?:\/\//);
    const always = ['hunter', 'deliverer', 'species', 'receivedOn', 'releasedOn', 'releasedTo'];
    expect([...requiredBy(set), ...always]).toEqual(expect.arrayContaining(set.asks));
  });

  it('can be picked, and only one that there is', async () => {
    const shop = await freshDesk();
    const look = await shop.call('shop.saveSettings', { changes: { recordSet: 'us-ca', retentionYears: 1 } });
    expect(look.settings).toMatchObject({ recordSet: 'us-ca', retentionYears: 1 });
    expect(look.recordSets.map(({ code }) => code)).toContain('us-ca');
    expect(await shop.problem('shop.saveSettings', { changes: { recordSet: 'atlantis' } })).toMatchObject({
      code: 'choice.record-set',
    });
    expect(await shop.problem('shop.saveSettings', { changes: { retentionYears: 0 } })).toMatchObject({
      code: 'retention.range',
    });
  });
});

describe('an entry written late', () => {
  it('is one that waited longer than the shop allows, in the shop’s own days', async () => {
    // 05:30 UTC on October 11 is still the evening of October 10 in Denver.
    const shop = await freshDesk('lb', '2026-10-11T05:30:00Z');
    await takeIn(shop, { receivedOn: '2026-10-09' });
    await takeIn(shop, { receivedOn: '2026-10-08' });
    const rows = await shop.call('records.list', {});
    expect(rows.map(({ enteredOn, lateDays }) => [enteredOn, lateDays])).toEqual([
      ['2026-10-10', 0],
      ['2026-10-10', 2],
    ]);
  });
});

describe('an entry brought in from a file', () => {
  it('is not late, and its history begins with the file', async () => {
    const shop = await freshDesk();
    await importTable(
      shop,
      'animals',
      'Name,Date in,Species,Sex,Brought as,Hanging lb\nBo Rask,2024-11-04,elk,male,whole,300\n',
    );
    const row = await only(shop, { season: 2024 });
    expect([row.lateDays, row.enteredOn]).toEqual([0, '2026-10-10']);
    const story = await shop.call('animals.getHistory', { id: row.id });
    expect(story.at(-1)).toMatchObject({ what: 'brought-in', facts: { file: 'old.csv' } });
  });
});

describe('finding entries', () => {
  it('takes days, species, what is still here, and part of a name, tag or licence', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { ...WHOLE, receivedOn: '2026-09-01', killDate: null });
    await takeIn(
      shop,
      { hunter: { name: 'Bo Rask' }, species: 'mule-deer', deliverer: { name: 'Åsa Lind' } },
      '90',
    );
    const gone = await takeIn(shop, {
      hunter: { name: 'Cy Marsh' },
      receivedOn: '2025-11-02',
      confirmed: true,
    });
    await shop.call('animals.setStage', {
      id: gone,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('pickup.release', { id: gone, to: 'Cy Marsh', unpaidBy: 'RO' });
    const found = async (input: CallInput<'records.list'>) =>
      (await shop.call('records.list', input)).map(({ ticket }) => ticket);
    expect(await found({})).toEqual(['26-0001', '26-0002']);
    expect(await found({ season: 2025 })).toEqual(['25-0001']);
    expect(await found({ from: '2025-11-02', to: '2026-09-01' })).toEqual(['25-0001', '26-0001']);
    expect(await found({ species: 'mule-deer' })).toEqual(['26-0002']);
    expect(await found({ from: '2000-01-01', state: 'closed' })).toEqual(['25-0001']);
    expect(await found({ from: '2000-01-01', state: 'open' })).toEqual(['26-0001', '26-0002']);
    expect(await found({ text: 'e-1017' })).toEqual(['26-0001']);
    expect(await found({ text: 'asa' })).toEqual(['26-0002']);
    expect(await found({ text: 'h-77' })).toEqual(['26-0001']);
  });

  it('says what was weighed, what came, and what is owed', async () => {
    const shop = await freshDesk();
    const id = await takeIn(
      shop,
      {
        ...WHOLE,
        brought: 'quarters',
        parts: [{ primal: 'haunch', count: 2 }],
        weights: [{ stage: 'received', typed: '120' }],
      },
      null,
    );
    expect(await only(shop)).toMatchObject({
      pieces: [{ count: 2 }],
      receivedGrams: 120 * 453.59237,
      hangingGrams: null,
      money: 'none',
    });
    await shop.call('bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '10' });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    const { dueMinor } = await only(shop);
    expect((await shop.call('bills.get', { animalId: id })).dueMinor).toBe(dueMinor);
    expect((await only(shop)).money).toBe(dueMinor > 0 ? 'open' : 'paid');
  });
});

describe('keeping', () => {
  it('counts from the day an animal left, and what is still here never grows too old', async () => {
    const shop = await freshDesk('lb', '2023-11-24T18:00:00Z');
    const gone = await takeIn(shop, { hunter: WHOLE.hunter, receivedOn: '2023-11-24' });
    await takeIn(shop, { hunter: WHOLE.hunter, receivedOn: '2023-11-24' });
    await shop.call('animals.setStage', {
      id: gone,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('pickup.release', { id: gone, to: 'Dana Whitlock', unpaidBy: 'RO' });
    const past = async () => ({
      check: (await shop.call('records.check', {})).pastKeeping,
      rows: (await shop.call('records.list', { season: 2023 })).map(({ pastKeeping }) => pastKeeping),
    });
    const years = 3;
    shop.wait((365 * 3 + 1) * 86_400);
    expect(await past()).toEqual({
      check: { years, before: '2023-11-24', entries: 0 },
      rows: [false, false],
    });
    shop.wait(86_400);
    expect(await past()).toEqual({ check: { years, before: '2023-11-25', entries: 1 }, rows: [true, false] });
  });
});

describe('the ticket numbers', () => {
  it('are said to be whole, and a number that is gone is named', async () => {
    const shop = await freshDesk();
    for (let i = 0; i < 4; i++) await takeIn(shop, {}, null);
    expect((await shop.call('records.check', {})).seasons).toEqual([
      { season: 2026, first: '26-0001', last: '26-0004', entries: 4, gaps: [] },
    ]);
    // No call removes an animal; a hand in the file could.
    const hand = new Database(shop.bookPath);
    hand.pragma('foreign_keys = OFF');
    hand.prepare('DELETE FROM animal WHERE number IN (1, 3)').run();
    hand.close();
    expect((await shop.call('records.check', {})).seasons).toEqual([
      { season: 2026, first: '26-0002', last: '26-0004', entries: 2, gaps: ['26-0001', '26-0003'] },
    ]);
  });
});
