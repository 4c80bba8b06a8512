/** A hunter's own check-in at the desk: what becomes of a draft, who may see it, and how long it keeps its details. */
import { existsSync, readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { removeOldDrafts } from '../../../src/desk/animals/check-in/draft-age.ts';
import { openDesk } from '../../../src/desk/desk.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';
import { floorOn, type Floor } from '../stations/floor.ts';

const MARK = 'Qzxmark';
const TERMS = 'Pick up within 5 days of our call.';
const SIGNATURE = 'M10,20L30,40L50,60M70,80L90,100';
const ANN: CallInput<'drafts.add'> = {
  language: 'es-MX', name: `${MARK} Vega`, phone: '555-7734', licence: `L-${MARK}`, tag: `T-${MARK}`, species: 'elk', sex: 'female',
  killDate: '2026-10-09', killArea: `${MARK} ridge`, terms: TERMS, signature: SIGNATURE,
}; // prettier-ignore
const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: 'thick',
}; // prettier-ignore
const INTAKE = {
  hunter: { name: `${MARK} Vega` }, species: 'elk', sex: 'female', age: 'adult', brought: 'skinned',
} as const; // prettier-ignore
const DAY = 86_400;

let floor: Floor;
let tablet: Awaited<ReturnType<Floor['pair']>>;
beforeEach(async () => {
  floor = await floorOn(await freshDesk());
  await floor.call('shop.saveSettings', { changes: { dropOffTerms: TERMS } });
  tablet = await floor.pair('hunter');
});
afterEach(() => floor.desk.close());

const rows = (sql: string): unknown[] => {
  const db = new Database(floor.bookPath, { readonly: true });
  try {
    return db.prepare(sql).all();
  } finally {
    db.close();
  }
};
const count = (table: string): unknown => rows(`SELECT count(*) AS n FROM ${table}`)[0];
const draft = async (more: Partial<CallInput<'drafts.add'>> = {}): Promise<number> =>
  (await floor.call('drafts.add', { ...ANN, ...more })).id;

describe('a draft of a hunter', () => {
  it('waits at the counter with what was typed, and its station', async () => {
    expect(await tablet.call('drafts.add', { ...ANN, instructions: ORDERS })).toMatchObject({ ok: true });
    const counter = await floor.pair('counter');
    const answer = await counter.call('drafts.list', {});
    const { terms, signature, ...typed } = ANN;
    expect(answer).toMatchObject({ ok: true, value: [{ ...typed, signed: true, instructions: ORDERS }] });
    expect(rows('SELECT station_id, terms, signature, by FROM draft')).toEqual([
      { station_id: tablet.id, terms, signature, by: '' },
    ]);
  });

  it('names who came before under that name and number, and the counter sees no old address', async () => {
    await floor.call('hunters.save', { name: 'Ana Ruiz', phone: '(307) 555-0142', address: 'Old Road 1' });
    await draft({ name: 'ana  ruiz', phone: '307 555 0142' });
    await draft({ name: 'Ana Ruiz', phone: '307 555 0143' });
    const [known, other] = await floor.call('drafts.list', {});
    expect([known?.known?.address, other?.known]).toEqual(['Old Road 1', null]);
    const counter = await floor.pair('counter');
    expect(await counter.call('drafts.list', {})).toMatchObject({
      value: [{ phone: '307 555 0142', known: { name: 'Ana Ruiz', phone: '', address: '' } }, {}],
    });
  });

  it('becomes one ticket', async () => {
    const draftId = await draft();
    const { id, ticket } = await floor.call('intake.takeIn', { ...INTAKE, draftId });
    expect(await floor.call('drafts.list', {})).toEqual([]);
    expect(rows('SELECT draft_id, state, animal_id FROM draft_state')).toEqual([
      { draft_id: draftId, state: 'taken', animal_id: id },
    ]);
    for (const [call, input, field] of [
      ['intake.takeIn', { ...INTAKE, draftId }, 'draftId'],
      ['drafts.dismiss', { id: draftId, reason: 'twice' }, 'id'],
      ['drafts.restore', { id: draftId }, 'id'],
    ] as const)
      expect(await floor.problem(call, input)).toEqual({
        kind: 'refused', code: 'draft.taken', field, with: { ticket },
      }); // prettier-ignore
    expect(count('animal')).toEqual({ n: 1 });
  });

  it('stays open where its intake is refused, which writes nothing', async () => {
    const draftId = await draft();
    const wrong = { ...INTAKE, draftId, weights: [{ stage: 'hanging' as const, typed: 'heavy' }] };
    expect(await floor.problem('intake.takeIn', wrong)).toMatchObject({ kind: 'invalid' });
    expect(await floor.problem('intake.takeIn', { ...INTAKE, draftId: 99 })).toMatchObject({
      code: 'draft.unknown',
    });
    expect(await floor.call('drafts.list', {})).toMatchObject([{ id: draftId }]);
    expect([count('animal'), count('hunter'), count('draft_state')]).toEqual([{ n: 0 }, { n: 0 }, { n: 0 }]);
  });

  it('is put aside and back', async () => {
    const id = await draft();
    expect(await floor.problem('drafts.restore', { id })).toMatchObject({ code: 'draft.not-dismissed' });
    await floor.call('drafts.dismiss', { id, reason: 'left again', by: 'MK' });
    expect(await floor.call('drafts.list', {})).toEqual([]);
    expect(await floor.problem('drafts.dismiss', { id, reason: 'again' })).toMatchObject({
      code: 'draft.dismissed',
    });
    expect(await floor.problem('intake.takeIn', { ...INTAKE, draftId: id })).toMatchObject({
      code: 'draft.dismissed',
    });
    await floor.call('drafts.restore', { id });
    expect(await floor.call('drafts.list', {})).toMatchObject([{ id }]);
  });
});

describe('a hunter’s tablet', () => {
  const own = (Object.keys(procedures) as (keyof typeof procedures)[]).filter((call) =>
    (procedures[call].places as readonly string[]).includes('hunter'),
  );

  it('asks two things only', () => expect(own).toEqual(['drafts.begin', 'drafts.add']));

  it('sees nothing of anybody, and not the example’s prices', async () => {
    await draft();
    await takeIn(floor, { hunter: { name: `${MARK} Other`, phone: '555-7735' } });
    const answer = await tablet.call('drafts.begin', { language: 'es-MX' });
    expect(answer).toMatchObject({ ok: true, value: { shopName: 'Test Locker', terms: TERMS } });
    expect(JSON.stringify(answer)).not.toMatch(/Qzxmark|555-77|Minor|"cost/);
    expect(answer).toMatchObject({ value: { prices: null } });
    for (const call of ['shop.get', 'drafts.list', 'hunters.find', 'intake.takeIn'])
      expect(await tablet.call(call, { text: 'a' })).toMatchObject({ problem: { code: 'station.place' } });
  });

  it('speaks the hunter’s language, whatever the station’s is', async () => {
    const elk = async (language: string) => {
      const answer = await tablet.call('drafts.begin', { language });
      if (!answer.ok) throw new Error(answer.problem.code);
      return (answer.value as { species: { code: string; title: string }[] }).species.find(
        ({ code }) => code === 'mule-deer',
      )?.title;
    };
    expect(await Promise.all(['en-US', 'es-MX', 'fr-CA'].map(elk))).toEqual([
      'Mule deer', 'Venado bura', 'Cerf mulet',
    ]); // prettier-ignore
  });

  it('needs nobody who is signed in, where others do', async () => {
    await floor.call('stations.setUp', { on: true, address: '192.168.77.1', pins: true, by: 'MK' });
    expect(await tablet.call('drafts.add', ANN)).toMatchObject({ ok: true });
    const counter = await floor.pair('counter');
    expect(await counter.call('drafts.dismiss', { id: 1, reason: 'x' })).toMatchObject({
      problem: { code: 'person.sign-in' },
    });
  });

  it('fills no queue without end', async () => {
    for (let i = 0; i < 40; i += 1) expect(await tablet.call('drafts.add', ANN)).toMatchObject({ ok: true });
    const over = { problem: { kind: 'refused', code: 'draft.too-many', with: { count: 40 } } };
    expect(await tablet.call('drafts.add', ANN)).toMatchObject(over);
    const other = await floor.pair('hunter', 'Second');
    expect(await other.call('drafts.add', ANN)).toMatchObject({ ok: true });
    floor.wait(15 * DAY);
    expect(await tablet.call('drafts.add', ANN)).toMatchObject({ ok: true });
  });
});

describe('what a draft may hold', () => {
  const refused = async (more: object) => (await floor.problem('drafts.add', { ...ANN, ...more })).code;

  it.each(['<script>', 'M1,2', 'M1,2L3', 'M1,2L3,4Z', 'M1,2L3,4 url(x)', 'M12345,2L3,4', 'L1,2'])(
    'no signature %j',
    async (signature) => expect(await refused({ signature })).toBe('signature.unreadable'),
  );

  it('a signature of lines up to a length', async () => {
    const long = (strokes: number) => ({ signature: 'M10,10L20,20'.repeat(strokes) });
    expect(await refused(long(1001))).toBe('signature.too-long');
    expect(await draft(long(1000))).toBe(1);
  });

  it('the shop’s terms as they are, signed', async () => {
    expect(await refused({ terms: 'Others' })).toBe('draft.terms-changed');
    expect(await refused({ signature: '' })).toBe('signature.needed');
    await floor.call('shop.saveSettings', { changes: { dropOffTerms: '' } });
    expect(await draft({ terms: '', signature: '' })).toBe(1);
  });

  it('a species, primals and a day that can be', async () => {
    expect(await refused({ species: 'unicorn' })).toBe('species.unknown');
    const primals = [{ primal: 'wing', as: 'steaks' }];
    expect(await refused({ instructions: { ...ORDERS, primals } })).toBe('primal.unknown');
    expect(await refused({ killDate: '2026-10-11' })).toBe('date.future');
    expect(count('draft')).toEqual({ n: 0 });
  });
});

describe('the details of a draft', () => {
  const upkeep = () => {
    const session = floor.desk.session();
    if (!session) throw new Error('no book');
    removeOldDrafts(session);
  };

  it('are removed after two weeks, unless it became a ticket', async () => {
    const taken = await draft({ name: 'Bo Rask' });
    await floor.call('intake.takeIn', { ...INTAKE, hunter: { name: 'Bo Rask' }, draftId: taken });
    const old = await draft({ instructions: { ...ORDERS, note: MARK } });
    await floor.call('drafts.dismiss', { id: old, reason: `${MARK} left` });
    floor.wait(14 * DAY - 60);
    upkeep();
    expect(rows('SELECT count(*) AS n FROM draft WHERE details_removed_at IS NULL')).toEqual([{ n: 2 }]);
    const young = await draft({ name: 'Cy Marsh' });
    floor.wait(120);
    upkeep();
    expect(rows('SELECT id FROM draft WHERE details_removed_at IS NOT NULL')).toEqual([{ id: old }]);
    expect(rows(`SELECT * FROM draft WHERE id = ${old}`)).toMatchObject([
      { name: 'removed', phone: '', licence: '', tag: '', kill_area: 'removed', instructions: null, signature: '' },
    ]); // prettier-ignore
    expect(rows(`SELECT reason FROM draft_state WHERE draft_id = ${old}`)).toEqual([{ reason: 'removed' }]);
    expect(await floor.problem('drafts.restore', { id: old })).toMatchObject({ code: 'draft.unknown' });
    expect(await floor.call('drafts.list', {})).toMatchObject([{ id: young }]);
  });

  it('are removed by a desk that runs', async () => {
    await draft();
    floor.desk.close();
    const later = new Date('2026-10-25T15:00:00Z');
    const upkeep = { backUpEvery: 1e9, lookEvery: 20 };
    const running = await openDesk({ bookPath: floor.bookPath, clock: () => later, upkeep });
    await expect.poll(() => rows('SELECT name FROM draft')).toEqual([{ name: 'removed' }]);
    running.close({ backUp: false });
  });

  it('stay where the computer’s clock is in doubt', async () => {
    await draft();
    floor.wait(3 * 366 * DAY);
    upkeep();
    expect(rows('SELECT name FROM draft')).toEqual([{ name: ANN.name }]);
  });

  it('go with the hunter’s, out of the file', async () => {
    const { id: hunterId } = await floor.call('hunters.save', { name: `${MARK} Vega` });
    const taken = await draft({ instructions: { ...ORDERS, note: MARK } });
    const animal = await floor.call('intake.takeIn', { ...INTAKE, hunter: { id: hunterId }, draftId: taken });
    await floor.call('animals.dispose', { id: animal.id, what: 'all', how: 'landfill', reason: 'spoiled' });
    const other = await draft({ name: 'Cy Marsh', licence: 'L-2', tag: 'T-2', killArea: 'Area 7' });
    const open = await draft();
    await floor.call('drafts.dismiss', { id: open, reason: `${MARK} left` });
    floor.wait(395 * DAY);
    await floor.call('shop.saveSettings', { changes: { retentionYears: 1 } });
    await floor.call('hunters.removeDetails', { id: hunterId, reason: 'asked for' });
    const kept = rows('SELECT id, name, details_removed_at FROM draft') as {
      id: number;
      name: string;
      details_removed_at: string | null;
    }[];
    const gone = kept.filter(({ details_removed_at: at }) => at !== null);
    expect(gone.map(({ id, name }) => [id, name])).toEqual([[taken, 'removed'], [open, 'removed']]); // prettier-ignore
    expect(kept.find(({ id }) => id === other)).toMatchObject({
      name: 'Cy Marsh',
      details_removed_at: null,
    });
    floor.desk.close();
    const files = [floor.bookPath, `${floor.bookPath}-wal`].filter((file) => existsSync(file));
    for (const file of files) expect(readFileSync(file, 'latin1').includes(MARK), file).toBe(false);
  });
});
