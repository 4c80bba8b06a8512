/** An animal whose season is wrong stops no other, and can be put right; its printed ticket finds it always. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { tempBookPath } from '../../book/temp-book.ts';
import { cut, deskOn, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const VERSION_10 = join(import.meta.dirname, '../..', 'book', 'versions', 'version-10.sql');

/** A book of the last version that took any year: its next numbers of 2026 are borne by animals of three other seasons. */
function stuckBook(): string {
  const path = tempBookPath();
  const old = new Database(path);
  old.exec(readFileSync(VERSION_10, 'utf8'));
  // Its kind of game is made up, and no desk can work with it.
  old.exec('DELETE FROM species_profile');
  const add = old.prepare(
    `INSERT INTO animal (season, number, ticket, hunter_id, species, sex, age, brought, origin, licence, tag, kill_date, kill_area,
       received_on, promised_on, condition, damage, detail, stage, ready_on, created_at)
     VALUES (?, ?, ?, 1, 'elk', 'male', 'adult', 'whole', 'hunter', '', '', NULL, '', ?, NULL, '', '', 'quick', 'hanging', NULL,
       '2026-10-08T15:00:00.000Z')`,
  );
  add.run(26, 3, '26-0003', '0026-10-07');
  add.run(1926, 4, '26-0004', '1926-10-07');
  add.run(2126, 5, '26-0005', '2126-10-07');
  old
    .prepare(
      `INSERT INTO quote VALUES (90, 1926, 2, 'Q26-0002', NULL, 'Bo', 'elk', NULL, '{}', '{}', '1926-10-01', '1926-11-01', '2026-10-08T15:00:00.000Z', '')`,
    )
    .run();
  old
    .prepare(
      `INSERT INTO batch VALUES (90, 1926, 2, 'G26-002', 'grind', NULL, '{"parts":[]}', 'done', '1926-10-07', '2026-10-08T15:00:00.000Z', '')`,
    )
    .run();
  old.close();
  return path;
}

const openStuck = () => deskOn(stuckBook(), '2026-10-13T15:00:00Z');
const nextTicket = async (shop: FreshDesk): Promise<string> => {
  const id = await takeIn(shop, {}, null);
  return (await shop.call('animals.get', { id })).ticket;
};
const mendDay = (shop: FreshDesk, id: number, receivedOn: string, confirmed = true) =>
  shop.call('animals.edit', { id, changes: { receivedOn }, reason: 'wrong year', confirmed });

describe('a book in which a wrong year had stopped intake', () => {
  it('takes animals, batches and quotes in again, and none gets a ticket that another bears', async () => {
    const shop = await openStuck();
    expect(await nextTicket(shop)).toBe('26-0006');
    expect(await nextTicket(shop)).toBe('26-0007');
    const trimmed = await takeIn(shop);
    await shop.call('table.weigh', { animalId: trimmed, stage: 'cut', part: 'trim', typed: '60' });
    const grind = { fat: 'none', targetFat: null, product: 'Ground', animals: [{ id: trimmed }] };
    expect(await shop.call('grinder.start', grind)).toMatchObject({ name: 'G26-003' });
    // The prices of that book are made up as well.
    await shop.call('prices.save', { name: 'Ours', validFrom: '2026-10-12', taxRule: 'per line', lines: [] });
    const instructions = {
      cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '',
    }; // prettier-ignore
    const quote = {
      species: 'elk',
      brought: 'skinned',
      stage: 'hanging',
      typed: '300',
      instructions,
    } as const;
    expect(await shop.call('quotes.save', quote)).toMatchObject({ name: 'Q26-0003' });
    expect(shop.broken).toEqual([]);
  });

  it('opens by every printed ticket, names the animals whose day cannot be, and reports no gap', async () => {
    const shop = await openStuck();
    await nextTicket(shop);
    for (const ticket of ['26-0001', '26-0003', '26-0004', '26-0005'])
      expect((await shop.call('animals.get', { ticket })).ticket).toBe(ticket);
    const check = await shop.call('records.check', {});
    expect(check.wrongDays.map(({ ticket }) => ticket)).toEqual(['26-0003', '26-0004', '26-0005']);
    expect(check.seasons.find(({ season }) => season === 2026)?.gaps).toEqual([]);
    expect(check.seasons.find(({ season }) => season === 1926)).toMatchObject({
      first: '26-0004',
      last: '26-0004',
    });
  });

  it('gets each of them into the right season under the ticket that hangs on it', async () => {
    const shop = await openStuck();
    await nextTicket(shop);
    for (const ticket of ['26-0003', '26-0004', '26-0005']) {
      const { id } = await shop.call('animals.get', { ticket });
      expect(await mendDay(shop, id, '2026-10-07')).toEqual({ id, ticket });
    }
    const check = await shop.call('records.check', {});
    expect(check.wrongDays).toEqual([]);
    expect(check.seasons).toEqual([
      { season: 2026, first: '26-0001', last: '26-0006', entries: 6, gaps: [] },
    ]);
    expect((await shop.call('shop.get', {})).seasons).toEqual([2026]);
    expect(await nextTicket(shop)).toBe('26-0007');
    expect(shop.broken).toEqual([]);
  });
});

describe('an animal that is moved to another season', () => {
  it('is asked about, gets the next ticket there, and is found by both', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { receivedOn: '2025-11-02', confirmed: true });
    const id = await takeIn(shop);
    const other = await takeIn(shop);
    const ask = {
      id,
      changes: { receivedOn: '2025-11-03' },
      reason: 'wrong year',
      confirmed: ['date.long-ago'],
    };
    expect(await shop.problem('animals.edit', ask)).toMatchObject({
      kind: 'conflict',
      code: 'edit.other-season',
      with: { ticket: '26-0001', season: 2025, before: 2026 },
    });
    const moved = await mendDay(shop, id, '2025-11-03');
    expect(moved).toEqual({ id, ticket: '25-0002' });
    for (const ticket of ['26-0001', '25-0002'])
      expect(await shop.call('animals.get', { ticket })).toMatchObject({
        id,
        ticket: '25-0002',
        formerTickets: ['26-0001'],
      });
    expect(await shop.call('animals.find', { text: '26-0001' })).toMatchObject([{ id }]);
    expect((await shop.call('animals.get', { id: other })).ticket).toBe('26-0002');
    expect(await nextTicket(shop)).toBe('26-0003');
    expect((await shop.call('records.check', {})).seasons.flatMap(({ gaps }) => gaps)).toEqual([]);
    const [last] = (await shop.call('animals.getHistory', { id })).filter(({ what }) => what === 'changed');
    expect(last?.changes).toEqual([
      { field: 'received_on', before: '2026-10-10', after: '2025-11-03' },
      { field: 'season', before: 2026, after: 2025 },
      { field: 'ticket', before: '26-0001', after: '25-0002' },
    ]);
  });

  it('gets its own ticket again when it comes back, and nobody else ever does', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    expect((await mendDay(shop, id, '2025-11-03')).ticket).toBe('25-0001');
    expect(await nextTicket(shop)).toBe('26-0002');
    expect((await mendDay(shop, id, '2026-10-09')).ticket).toBe('26-0001');
    expect((await mendDay(shop, id, '2025-11-03')).ticket).toBe('25-0001');
    const again = await takeIn(shop, { receivedOn: '2025-11-04', confirmed: true }, null);
    expect((await shop.call('animals.get', { id: again })).ticket).toBe('25-0002');
    expect(shop.broken).toEqual([]);
  });

  it('counts in the season that it came to and no more in the one that it left', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { receivedOn: '2025-11-02', confirmed: true });
    await takeIn(shop, { receivedOn: '2025-11-02', confirmed: true });
    const animals = async (season: number) =>
      (await shop.call('season.flow', { season })).days.reduce((sum, { taken }) => sum + taken, 0);
    expect([await animals(2025), await animals(2026)]).toEqual([2, 0]);
    await mendDay(shop, id, '2026-10-09');
    expect([await animals(2025), await animals(2026)]).toEqual([1, 1]);
  });

  it('stays in its season when the month in which seasons begin was set anew and the day moves little', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { receivedOn: '2026-10-09' });
    await shop.call('shop.saveSettings', { changes: { seasonStartsMonth: 12 } });
    expect(await mendDay(shop, id, '2026-10-08', false)).toEqual({ id, ticket: '26-0001' });
  });

  it('writes the whole year of a season that two digits cannot tell', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { receivedOn: '1998-11-02', confirmed: true }, null);
    expect((await shop.call('animals.get', { id })).ticket).toBe('1998-0001');
    expect((await shop.call('animals.get', { ticket: '1998-0001' })).id).toBe(id);
  });
});

describe('a book in which a running number is beyond all numbers', () => {
  it('takes animals and batches in after the highest that can be', async () => {
    const shop = await freshDesk();
    const first = await takeIn(shop);
    const spoilt = await takeIn(shop);
    await cut(shop, first, { trim: '60' });
    const grind = { animals: [{ id: first }], fat: 'none', targetFat: null, product: 'Ground' };
    const { id: batchId } = await shop.call('grinder.start', grind);
    const other = new Database(shop.bookPath);
    const most = 2 ** 53;
    other.prepare('UPDATE animal SET number = ? WHERE id = ?').run(most, spoilt);
    other.prepare('UPDATE batch SET number = ? WHERE id = ?').run(most, batchId);
    other.close();
    const ticket = async (id: number) => (await shop.call('animals.get', { id })).ticket;
    expect(await ticket(await takeIn(shop))).toBe('26-0003');
    expect(await ticket(await takeIn(shop))).toBe('26-0004');
    expect((await shop.call('grinder.start', grind)).name).toBe('G26-002');
    shop.desk.close();
  });
});
