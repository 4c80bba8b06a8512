import { readFileSync, writeFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { strFromU8, unzipSync } from 'fflate';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { tablesOf } from '../../../src/book/file/tables.ts';
import { foreignWords, wordsOf } from '../../words/catalogue-words.ts';
import { demoAt } from '../../demo-copy.ts';
import { openDesk } from '../../../src/desk/desk.ts';
import { bookWords } from '../../../src/desk/export/describe.ts';
import { keysOf } from '../../../src/words/area.ts';
import { text as columnsText } from '../../../src/words/compiled/desk/book/columns.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { importTable, uploadFile } from '../import/import-file.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

type Caller = Pick<FreshDesk, 'call'>;

async function fetchAll(shop: Caller, { id, bytes }: { id: number; bytes: number }): Promise<Buffer> {
  const pieces: Buffer[] = [];
  for (let from = 0, last = false; !last;) {
    const piece = await shop.call('export.getPiece', { id, from });
    pieces.push(Buffer.from(piece.base64, 'base64'));
    from += pieces.at(-1)?.length ?? 0;
    last = piece.last;
  }
  const all = Buffer.concat(pieces);
  expect(all.length).toBe(bytes);
  return all;
}
async function takeOut(shop: Caller, what: CallInput<'export.create'>['what']): Promise<Buffer> {
  return fetchAll(shop, await shop.call('export.create', { what }));
}

/** Opened by another library than ours, so that the archive is one for everybody. */
function unzip(archive: Buffer): (name: string) => string {
  const files = unzipSync(archive);
  return (name) => strFromU8(files[name] ?? new Uint8Array());
}

/** The demo of three seasons in a book of its own, with rows in nearly every table. */
async function demoDesk(): Promise<Caller & { close(): void }> {
  const bookPath = tempBookPath();
  const now = new Date('2026-11-24T18:00:00Z');
  await demoAt(bookPath);
  const desk = await openDesk({ bookPath, clock: () => now });
  return {
    async call(name, input) {
      const answer = await desk.call(name, input);
      if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
      return answer.value as never;
    },
    close: () => desk.close(),
  };
}

const OLD = [
  'Old number,Date,Species,Customer,Phone,Address,Brought as,Sex,Hanging,Take home,Packages,Notes,Damage cut away',
  'A1,2023-11-04,elk,Dana Whitlock,555-0142,"Old Road 1, Cody",skinned,cow,300.50,150,31,=cmd|calc,none',
  "A2,2023-11-05,mule deer,Rosa Díaz,,,whole,buck,84 lb 10 oz,44,,'-dash,",
  'A3,2022-10-05,moose,משה 🦌,+49 30 12345,,quarters,,500,300,60,,',
].join('\n');

describe('a whole book as text', () => {
  it('fills an empty book that then exports the same text', async () => {
    const demo = await demoDesk();
    const text = await takeOut(demo, 'text');
    demo.close();
    const parsed = JSON.parse(text.toString()) as { tables: { table: string; rows: unknown[] }[] };
    expect(parsed.tables.find(({ table }) => table === 'weighing')?.rows.length).toBeGreaterThan(3000);
    expect(parsed.tables.find(({ table }) => table === 'part_none')?.rows.length).toBeGreaterThan(20);
    const shop = await freshDesk();
    const upload = await uploadFile(shop, text, 'book.json');
    expect((await shop.call('import.book', { upload })).animals).toBeGreaterThan(500);
    expect((await takeOut(shop, 'text')).equals(text)).toBe(true);
    const db = new Database(shop.bookPath);
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(() => db.prepare('DELETE FROM weighing').run()).toThrow('written once');
    db.close();
    // It goes on working: the next ticket follows the last.
    await takeIn(shop, {}, null);
    expect(await shop.problem('import.book', { upload: await uploadFile(shop, text) })).toMatchObject({
      code: 'export.not-empty',
    });
  }, 120_000);

  it.each([
    ['export.format', (text: string) => 'Name,Phone\n' + text],
    ['export.format', () => '{"format":"other","tables":[\n]}\n'],
    ['export.newer', (text: string) => text.replace(/"bookVersion":\d+/, '"bookVersion":999')],
    ['export.torn', (text: string) => text.slice(0, text.length / 2)],
    ['export.torn', (text: string) => text.slice(0, -3)],
    ['export.row', (text: string) => text.replace('"hanging","carcass"', '"hanging","wing"')],
    [
      'export.row',
      (text: string) =>
        text.replace(/"table":"weighing","columns":\["id"/, '"table":"weighing","columns":["nr"'),
    ],
    ['export.row', (text: string) => text.replace('"table":"hunter"', '"table":"people"')],
    ['export.row', (text: string) => text.replace(/("table":"hunter".*\n)\[1,.*\n/, '$1')],
  ])('%s is told of what is no whole book, and nothing comes in', async (code, spoil) => {
    const full = await freshDesk();
    await takeIn(full);
    const text = (await takeOut(full, 'text')).toString();
    const shop = await freshDesk();
    const before = await takeOut(shop, 'text');
    const upload = await uploadFile(shop, spoil(text));
    expect(await shop.problem('import.book', { upload })).toMatchObject({ code, kind: 'invalid' });
    expect((await takeOut(shop, 'text')).equals(before)).toBe(true);
  });
});

describe('tables', () => {
  it('are importable again, with formulas escaped', async () => {
    const shop = await freshDesk();
    await importTable(shop, 'animals', OLD);
    const first = unzip(await takeOut(shop, 'tables'));
    expect(first('animals.csv')).toContain(`'=cmd|calc`);
    expect(first('hunters.csv')).toContain(`'+49 30 12345`);
    const again = await freshDesk();
    for (const kind of ['hunters', 'animals', 'weighings'] as const)
      await importTable(again, kind, first(`${kind}.csv`));
    const second = unzip(await takeOut(again, 'tables'));
    for (const kind of ['hunters', 'animals', 'weighings'])
      expect(second(`${kind}.csv`), kind).toBe(first(`${kind}.csv`));
    expect(first('tables/weighing.csv').split('\r\n')).toHaveLength(8);
    expect(first('weighings.csv')).toContain('23-0001,cut/damage,0,');
    expect(first('READ ME.txt')).toContain('weighing: one weight, as read from the scale');
  });

  it.each(['en-CA', 'es-MX', 'fr-CA', 'qps'] as const)(
    'have the headings and words of a window in %s, which any window imports',
    async (language) => {
      const shop = await freshDesk();
      await importTable(shop, 'animals', OLD);
      const english = unzip(await takeOut(shop, 'tables'));
      const own = unzip(await fetchAll(shop, await shop.call('export.create', { what: 'tables', language })));
      const heading = {
        'en-CA': /,Licence,/,
        'es-MX': /,Licencia,/,
        'fr-CA': /,Permis,/,
        qps: /,\[Ļîî\p{L}+\],/u,
      }[language];
      expect(own('animals.csv').split('\r\n')[0]).toMatch(heading);
      const said = { 'en-CA': ',skinned,', 'es-MX': ',Desollado,', 'fr-CA': ',Dépouillé,', qps: ',[' }[
        language
      ];
      expect(own('animals.csv')).toContain(said);
      const undone = { 'en-CA': 'undone', 'es-MX': 'deshecho', 'fr-CA': 'défait', qps: '[' }[language];
      expect(own('codes.csv')).toContain(`reason:undone,${undone}`);
      const again = await freshDesk();
      for (const kind of ['hunters', 'animals', 'weighings'] as const) {
        const [, ...rows] = english(`${kind}.csv`).split('\r\n');
        if (language === 'en-CA') expect(own(`${kind}.csv`).split('\r\n').slice(1), kind).toEqual(rows);
        await importTable(again, kind, own(`${kind}.csv`));
      }
      const second = unzip(await takeOut(again, 'tables'));
      for (const kind of ['hunters', 'animals', 'weighings'])
        expect(second(`${kind}.csv`), kind).toBe(english(`${kind}.csv`));
    },
  );

  it.each(['es-MX', 'fr-CA'] as const)('say nothing of their own in English in %s', async (language) => {
    const shop = await freshDesk();
    await takeIn(shop);
    const names = (of: Buffer) => Object.keys(unzipSync(of));
    const archive = await fetchAll(shop, await shop.call('export.create', { what: 'tables', language }));
    const own = unzip(archive);
    const readMe = names(archive).find((name) => name.endsWith('.txt')) ?? '';
    const foreign = foreignWords(language);
    const headings = ['hunters', 'animals', 'weighings'].map(
      (kind) => own(`${kind}.csv`).split('\r\n')[0] ?? '',
    );
    expect([readMe, ...headings].flatMap(wordsOf).filter((word) => foreign.has(word))).toEqual([]);
    // The descriptions name codes, which are English words: none of their lines may be the English one.
    const english = new Set(unzip(await takeOut(shop, 'tables'))('READ ME.txt').split('\r\n'));
    const same = own(readMe)
      .split('\r\n')
      .filter((line) => line.includes(': ') && english.has(line));
    expect(same).toEqual([]);
  });

  it('are the same for the same book, and no cell of the demo starts a formula', async () => {
    const demo = await demoDesk();
    const archive = await takeOut(demo, 'tables');
    expect((await takeOut(demo, 'tables')).equals(archive)).toBe(true);
    const file = unzip(archive);
    for (const name of ['hunters.csv', 'animals.csv', 'weighings.csv', 'tables/quote.csv'])
      expect(file(name).replace(/"(?:[^"]|"")*"/g, 'x'), name).not.toMatch(/(^|,)[=+@]/m);
    demo.close();
  }, 60_000);

  it('of the book are all described, and nothing else is', () => {
    const book = openRecordBook(tempBookPath(), new Date());
    const tables = tablesOf(book.db);
    book.close();
    const words = bookWords('en-US');
    const without = tables.flatMap(({ name, columns }) => [
      ...(words.table(name) ? [] : [name]),
      ...columns.filter((column) => !words.column(name, column)).map((column) => `${name}.${column}`),
    ]);
    expect(without).toEqual([]);
    const known = new Set(
      tables.flatMap(({ name, columns }) => [
        `tables.${name}`,
        ...columns.map((column) => `columns.${name}.${column}`),
      ]),
    );
    const said = keysOf(columnsText).filter((key) => key !== 'about' && !key.startsWith('everywhere.'));
    expect(said.filter((key) => !known.has(key))).toEqual([]);
  });
});

describe('the book as a file', () => {
  it('is complete', async () => {
    const shop = await freshDesk();
    await takeIn(shop);
    const path = tempBookPath();
    writeFileSync(path, await takeOut(shop, 'book'));
    const db = new Database(path, { readonly: true });
    expect(db.prepare('SELECT ticket FROM animal').pluck().all()).toEqual(['26-0001']);
    db.close();
  });
});

describe('one hunter', () => {
  const DANA = {
    name: 'Dana Whitlock',
    phone: '555-0142',
    email: 'dana@example.org',
    address: 'Old Road 1',
    licence: 'L-77',
  };

  it('gets all own records, and none of others', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop, { hunter: DANA, tag: 'T-1' });
    const { noneId } = await shop.call('table.stateNone', { animalId, part: 'damage' });
    await shop.call('table.voidNone', { noneId, reason: 'there was some' });
    await takeIn(shop, { hunter: { name: 'Rosa Díaz', phone: '555-9999' }, tag: 'T-2' }, '410');
    const archive = await fetchAll(shop, await shop.call('export.createForHunter', { id: 1 }));
    const text = unzip(archive)('everything.json');
    const found = JSON.parse(text) as Record<string, Record<string, unknown>[]>;
    expect(found.hunter).toMatchObject([DANA]);
    expect(found.animal).toMatchObject([{ ticket: '26-0001', tag: 'T-1' }]);
    expect(found.weighing).toMatchObject([{ typed: '400' }]);
    expect(found.part_none).toMatchObject([{ part: 'damage' }]);
    expect(found.part_none_void).toMatchObject([{ reason: 'there was some' }]);
    expect(found.audit?.length).toBeGreaterThan(0);
    expect(text).not.toMatch(/Rosa|T-2|410/);
  });

  it('is removed after the retention period, from the file too, while the weights stay', async () => {
    const shop = await freshDesk();
    const table = `Date,Hunter,Phone,Address,Licence,Species,Brought as,Hanging,Take home,Tag,Picked up on,Picked up by
2019-11-04,Dana Whitlock,555-0142,Old Road 1,L-77-xyz,elk,skinned,300,150,T-99-xyz,2019-11-20,Dana Whitlock`;
    await importTable(shop, 'animals', table);
    await shop.call('hunters.save', { id: 1, ...DANA, address: 'New Road 2' });
    const weights = await shop.call('season.yields', { season: 2019 });
    expect(await shop.problem('hunters.removeDetails', { id: 1, reason: '' })).toMatchObject({
      code: 'text.needed',
    });
    await shop.call('hunters.removeDetails', { id: 1, reason: 'asked for by letter' });
    expect(await shop.problem('hunters.removeDetails', { id: 1, reason: 'again' })).toMatchObject({
      code: 'hunter.removed',
    });
    expect(await shop.call('season.yields', { season: 2019 })).toEqual(weights);
    expect(await shop.call('hunters.find', { text: '555-0142' })).toEqual([]);
    const text = (await takeOut(shop, 'text')).toString();
    expect(text).toContain('asked for by letter');
    shop.desk.close();
    const bytes = readFileSync(shop.bookPath).toString('latin1');
    for (const gone of [
      'Whitlock',
      '555-0142',
      'dana@example.org',
      'Old Road 1',
      'New Road 2',
      'L-77',
      'T-99-xyz',
    ]) {
      expect(text, gone).not.toContain(gone);
      expect(bytes, gone).not.toContain(gone);
    }
  });

  it('stays while an animal is in the shop or the period is not over', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { hunter: DANA });
    expect(await shop.problem('hunters.removeDetails', { id: 1, reason: 'x' })).toMatchObject({
      code: 'hunter.animal-here',
    });
    await importTable(shop, 'animals', 'Date,Hunter,Species,Brought as\n2026-10-01,New One,elk,whole');
    expect(await shop.problem('hunters.removeDetails', { id: 2, reason: 'x' })).toMatchObject({
      code: 'hunter.still-kept', with: { date: '2026-10-01' },
    }); // prettier-ignore
  });
});
