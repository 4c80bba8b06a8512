import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { importTable, uploadFile, previewTable } from './import-file.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

/** As a shop might have kept it: a title, its own headings, two people of one name, dates with the month first. */
const MESSY = [
  'Deer 2023;;;;;;;;',
  ';;;;;;;;',
  'Ticket #;Date in;Customer;Phone;Animal;Sex;Hanging wt (lb);Take home;Notes',
  '17;11/4/2023;Dana Whitlock;555-0142;Muley;buck;84,5;44,25;"fat; nice"',
  '18;11/13/2023;Dana Whitlock;555-0142;elk;cow;"212,0";118;',
  "19;11/14/2023;Rosa Díaz;;WT;doe;61;0;'=SUM(A1)",
  '',
].join('\r\n');

const rowsIn = (shop: FreshDesk, sql: string): unknown[] => {
  const db = new Database(shop.bookPath, { readonly: true });
  try {
    return db.prepare(sql).raw().all();
  } finally {
    db.close();
  }
};
/** Everything in the book but what files are told of. */
function whole(shop: FreshDesk): string {
  const tables = [
    'hunter',
    'animal',
    'weighing',
    'weighing_void',
    'part_none',
    'release',
    'animal_sum',
    'quote',
  ];
  return JSON.stringify(tables.map((table) => rowsIn(shop, `SELECT * FROM ${table}`)));
}

describe('a messy table of an earlier season', () => {
  it('is read by its headings, and comes in whole', async () => {
    const shop = await freshDesk();
    const look = await previewTable(shop, 'animals', MESSY, { always: { brought: 'whole' } });
    expect(look.layout).toMatchObject({
      separator: ';',
      headingRow: 3,
      decimal: ',',
      dates: 'month first',
      unit: 'lb',
    });
    expect(look.layout.columns).toEqual({
      oldNumber: 0, receivedOn: 1, name: 2, phone: 3, species: 4, sex: 5, hanging: 6, takeHome: 7, condition: 8,
    }); // prettier-ignore
    expect(look.problems).toEqual([]);
    expect(look.counts).toEqual({ hunters: 2, animals: 3, weighings: 5, none: 0, known: 0 });
    const done = await shop.call('import.run', {
      upload: look.upload,
      kind: 'animals',
      layout: look.layout,
    });
    expect(done).toMatchObject({ rows: 3, hunters: 2, animals: 3, weighings: 5 });
    expect(
      rowsIn(
        shop,
        'SELECT ticket, old_number, species, sex, stage, condition, received_on FROM animal ORDER BY id',
      ),
    ).toEqual([
      ['23-0001', '17', 'mule-deer', 'male', 'released', 'fat; nice', '2023-11-04'],
      ['23-0002', '18', 'elk', 'female', 'released', '', '2023-11-13'],
      ['23-0003', '19', 'white-tail', 'female', 'released', '=SUM(A1)', '2023-11-14'],
    ]);
    expect(
      rowsIn(shop, 'SELECT typed, digits, decimals, unit, source, stage FROM weighing ORDER BY id LIMIT 3'),
    ).toEqual([
      ['84,5', 845, 1, 'lb', 'import', 'hanging'],
      ['44,25', 4425, 2, 'lb', 'import', 'packed'],
      ['212,0', 2120, 1, 'lb', 'import', 'hanging'],
    ]);
    // The yield model knows them as animals of their season, and fat that was saved long ago is not on hand.
    const season = await shop.call('season.yields', { season: 2023 });
    expect(JSON.stringify(season)).toContain('23-0001');
    expect(rowsIn(shop, 'SELECT count(*) FROM animal_sum WHERE share IS NOT NULL')).toEqual([[2]]);
    expect(rowsIn(shop, 'SELECT * FROM animal_sum_now ORDER BY 1')).toEqual(
      rowsIn(shop, 'SELECT * FROM animal_sum ORDER BY 1'),
    );
    expect(await shop.call('rail.get', {})).toMatchObject({ hooks: [] });
    // It was written down in its time, in another book.
    const entries = await shop.call('records.list', { season: 2023 });
    expect(entries.map(({ lateDays }) => lateDays)).toEqual([0, 0, 0]);
    expect((await shop.call('records.check', {})).seasons).toMatchObject([
      { season: 2023, entries: 3, gaps: [] },
    ]);
  });

  it('teaches what such an animal yields', async () => {
    const shop = await freshDesk();
    const rows = Array.from(
      { length: 40 },
      (_, i) => `${i + 1},2023-11-${String((i % 28) + 1).padStart(2, '0')},H${i},elk,300,${100 + (i % 5)}`,
    );
    const before = await shop.call('season.check', { season: 2023 });
    expect(before.paths).toEqual([]);
    await importTable(shop, 'animals', ['No,Date,Hunter,Species,Hanging,Take home', ...rows].join('\n'), {
      always: { brought: 'skinned' },
    });
    const [elk] = (await shop.call('season.check', { season: 2023 })).paths;
    const [untaught, taught] = [elk?.steps[0], elk?.steps.at(-1)];
    expect(taught?.n).toBe(40);
    // The published figure is far above what this shop cut; forty animals draw the belief to them.
    expect(untaught?.mean).toBeGreaterThan(0.45);
    expect(taught?.mean).toBeLessThan(0.38);
    expect(taught?.mean).toBeGreaterThan(0.32);
  });

  it('is undone as one step, and may come in again with the same tickets', async () => {
    const shop = await freshDesk();
    await takeIn(shop);
    const before = whole(shop);
    const always = { brought: 'whole' };
    const first = await importTable(shop, 'animals', MESSY, { always });
    const after = whole(shop);
    expect(after).not.toBe(before);
    expect(await shop.call('import.undo', { id: first.id })).toEqual({ id: first.id, name: 'old.csv' });
    expect(whole(shop)).toBe(before);
    expect((await shop.call('import.list', {}))[0]).toMatchObject({
      animals: 3,
      undoneAt: expect.any(String),
    });
    expect(await shop.problem('import.undo', { id: first.id })).toMatchObject({ code: 'import.undone' });
    await importTable(shop, 'animals', MESSY, { always });
    expect(whole(shop)).toBe(after);
    expect(rowsIn(shop, 'PRAGMA foreign_key_check')).toEqual([]);
    // Every guard is in place again.
    const db = new Database(shop.bookPath);
    expect(() => db.prepare('DELETE FROM weighing').run()).toThrow('written once');
    expect(() => db.prepare("UPDATE release SET note = 'x'").run()).not.toThrow(); // it has no row
    db.close();
  });

  it('cannot be undone once something hangs on it, and says on what', async () => {
    const shop = await freshDesk();
    const always = { brought: 'whole' };
    const { id } = await importTable(shop, 'animals', MESSY, { always });
    const [dana] = await shop.call('hunters.find', { text: 'Dana' });
    const animal = await takeIn(shop, { hunter: { id: dana?.id ?? 0 } });
    expect(await shop.problem('import.undo', { id })).toMatchObject({
      code: 'import.since', kind: 'refused', with: { what: 'hunter', name: 'Dana Whitlock' },
    }); // prettier-ignore
    expect(animal).toBeGreaterThan(0);

    const second = await freshDesk();
    const early = await importTable(second, 'animals', MESSY, { always });
    const [weighing] = rowsIn(second, 'SELECT id, animal_id FROM weighing LIMIT 1') as [[number, number]];
    await second.call('animals.reopen', { id: weighing[1], reason: 'the weight was misread' });
    await second.call('table.void', { weighingId: weighing[0], reason: 'wrong' });
    expect(await second.problem('import.undo', { id: early.id })).toMatchObject({
      code: 'import.since', with: { what: 'animal', name: '23-0001' },
    }); // prettier-ignore

    const third = await freshDesk();
    const old = await importTable(third, 'animals', MESSY, { always });
    await importTable(third, 'animals', 'Date,Hunter,Species,Hanging\n2023-12-01,New One,elk,300', {
      always,
    });
    expect(await third.problem('import.undo', { id: old.id })).toMatchObject({
      code: 'import.later-ticket', with: { name: '23-0004' },
    }); // prettier-ignore
  });

  it('says of the very same file that it was brought in before', async () => {
    const shop = await freshDesk();
    await importTable(shop, 'hunters', 'Name\nDana\nRosa');
    expect((await previewTable(shop, 'hunters', 'Name\nDana\nRosa')).twice).toMatchObject({
      file: 'old.csv',
    });
    const { upload, layout } = await previewTable(shop, 'animals', MESSY, { always: { brought: 'whole' } });
    await shop.call('import.run', { upload, kind: 'animals', layout });
    const again = await uploadFile(shop, MESSY);
    expect(await shop.problem('import.run', { upload: again, kind: 'animals', layout })).toMatchObject({
      kind: 'conflict', code: 'sheet.twice',
    }); // prettier-ignore
    await shop.call('import.run', { upload: again, kind: 'animals', layout, confirmed: true });
  });

  it('remembers its columns and words for the next file', async () => {
    const shop = await freshDesk();
    const odd = (day: string) => `Wann,Wer,Tier,kg am Haken\n${day},Dana,Reh,22.5`;
    const columns = { receivedOn: 0, name: 1, species: 2, hanging: 3 };
    const picked = {
      columns,
      always: { brought: 'skinned' },
      words: { species: { reh: 'white-tail' } },
      unit: 'kg' as const,
    };
    await importTable(shop, 'animals', odd('2022-10-01'), picked);
    const next = await previewTable(shop, 'animals', odd('2022-10-02'));
    expect(next.layout).toMatchObject(picked);
    expect(next.problemCount).toBe(0);
  });
});

describe('what is wrong with a row', () => {
  it.each([
    ['receivedOn', 'sheet.date', '31/31/2023,Dana,elk,whole,300'],
    ['receivedOn', 'sheet.lacks', ',Dana,elk,whole,300'],
    ['receivedOn', 'date.future', '2031-01-01,Dana,elk,whole,300'],
    ['name', 'sheet.lacks', '2023-11-04,,elk,whole,300'],
    ['name', 'text.too-long', `2023-11-04,${'x'.repeat(10_000)},elk,whole,300`],
    ['name', 'text.control', '2023-11-04,Da\0na,elk,whole,300'],
    ['species', 'sheet.word', '2023-11-04,Dana,unicorn,whole,300'],
    ['brought', 'sheet.word', '2023-11-04,Dana,elk,by train,300'],
    ['hanging', 'reading.negative', '2023-11-04,Dana,elk,whole,-300'],
    ['hanging', 'reading.unreadable', '2023-11-04,Dana,elk,whole,heavy'],
    ['hanging', 'reading.too-heavy', '2023-11-04,Dana,elk,whole,999999999'],
    ['trim', 'weight.more-than-animal', '2023-11-04,Dana,elk,whole,300,,320'],
    ['wholeCuts', 'sheet.cuts-alone', '2023-11-04,Dana,elk,whole,300,50,,150'],
    ['packages', 'count.range', '2023-11-04,Dana,elk,whole,300,,,150,many'],
    ['killDate', 'date.killed-after-received', '2023-11-04,Dana,elk,whole,300,,,,,2023-11-05'],
    ['releasedOn', 'sheet.released-before', '2023-11-04,Dana,elk,whole,300,,,,,,2023-11-03'],
  ])('%s: %s', async (field, code, row) => {
    const shop = await freshDesk();
    const head = 'Date,Hunter,Species,Brought as,Hanging,Whole cuts,Trim,Take home,Packages,Killed,Picked up';
    const before = whole(shop);
    const good = '2023-11-04,Rosa,elk,whole,300,60,80,140,31,2023-11-03,2023-11-20';
    const look = await previewTable(shop, 'animals', [head, good, row].join('\n'));
    expect(look.problems.map(({ row: at, field: of, problem }) => [at, of, problem.code])).toEqual([
      [3, field, code],
    ]);
    const { upload, layout } = look;
    expect(await shop.problem('import.run', { upload, kind: 'animals', layout, confirmed: true })).toMatchObject({
      code: 'sheet.problems', with: { count: 1, row: 3 },
    }); // prettier-ignore
    expect(whole(shop)).toBe(before);
  });

  it.each([
    ['weight.unlikely', '2023-11-04,Dana,elk,whole,3000,,'],
    ['sheet.parts-over', '2023-11-04,Dana,elk,whole,300,160,170'],
  ])('%s is asked about, and comes in if the shop is sure', async (code, row) => {
    const shop = await freshDesk();
    const look = await previewTable(
      shop,
      'animals',
      `Date,Hunter,Species,Brought as,Hanging,Whole cuts,Trim\n${row}`,
    );
    expect(look.problemCount).toBe(0);
    expect(look.doubts.map(({ problem }) => problem.code)).toEqual([code]);
    const { upload, layout } = look;
    expect(await shop.problem('import.run', { upload, kind: 'animals', layout })).toMatchObject({
      kind: 'conflict', code: 'sheet.doubts',
    }); // prettier-ignore
    expect(await shop.call('import.run', { upload, kind: 'animals', layout, confirmed: true })).toMatchObject(
      {
        animals: 1,
      },
    );
  });

  it('tells once of what no column holds', async () => {
    const shop = await freshDesk();
    const look = await previewTable(
      shop,
      'animals',
      'Date,Hunter,Hanging\n2023-11-04,Dana,300\n2023-11-05,Rosa,280',
    );
    expect(look.problems.map(({ row, field, problem }) => [row, field, problem.code])).toEqual([
      [2, 'species', 'sheet.no-column'],
      [2, 'brought', 'sheet.no-column'],
    ]);
    const { upload, layout } = look;
    expect(await shop.problem('import.run', { upload, kind: 'animals', layout })).toMatchObject({
      code: 'sheet.problems', with: { count: 2 },
    }); // prettier-ignore
  });

  it('lists the words that nobody knows, and takes what the shop says they mean', async () => {
    const shop = await freshDesk();
    const table =
      'Date,Hunter,Species,Sex,Hanging\n2023-11-04,Dana,Hirsch,?,300\n2023-11-05,Rosa,HIRSCH ,w,280';
    const look = await previewTable(shop, 'animals', table, { always: { brought: 'whole' } });
    expect(look.unknown).toEqual([
      { field: 'species', word: 'Hirsch', key: 'hirsch', rows: 2 },
      { field: 'sex', word: 'w', key: 'w', rows: 1 },
    ]);
    const words = { species: { hirsch: 'elk' }, sex: { w: 'female' } };
    expect(
      (await previewTable(shop, 'animals', table, { always: { brought: 'whole' }, words })).problemCount,
    ).toBe(0);
  });
});

describe('hunters and single weights', () => {
  it('leaves who is in the book as he or she is', async () => {
    const shop = await freshDesk();
    await shop.call('hunters.save', { name: 'Dana Whitlock', phone: '555-0142', address: 'Old Road 1' });
    const done = await importTable(
      shop,
      'hunters',
      'Name,Phone,Address\nDANA WHITLOCK,(555) 0142,Other\nDana Whitlock,555-9999,\nRosa,,\nRosa,,',
    );
    expect(done).toMatchObject({ rows: 4, hunters: 3, known: 1 });
    expect(rowsIn(shop, 'SELECT name, phone, address FROM hunter ORDER BY id')).toEqual([
      ['Dana Whitlock', '555-0142', 'Old Road 1'],
      ['DANA WHITLOCK', '(555) 0142', 'Other'],
      ['Dana Whitlock', '555-9999', ''],
      ['Rosa', '', ''],
    ]);
    expect(await shop.problem('import.run', await again(shop, 'Name\nRosa'))).toMatchObject({
      code: 'sheet.no-rows',
    });
  });

  it('keeps single weights by ticket or by the old number, and undoes them', async () => {
    const shop = await freshDesk();
    const { id: animals } = await importTable(
      shop,
      'animals',
      'No,Date,Hunter,Species\nA7,2023-11-04,Dana,elk',
      {
        always: { brought: 'skinned' },
      },
    );
    const before = whole(shop);
    const table =
      'Old number,Part,Weight,Tare,Packages,Product\nA7,Hanging,300,,,\n23-0001,bone,61.5 lb,1 lb,,\nA7,Trim,80,,,\nA7,Package,70,,31,Burger';
    const { id } = await importTable(shop, 'weighings', table);
    expect(
      rowsIn(shop, 'SELECT stage, part, typed, tare_typed, product, count FROM weighing ORDER BY id'),
    ).toEqual([
      ['hanging', 'carcass', '300', null, null, null],
      ['cut', 'bone', '61.5 lb', '1 lb', null, null],
      ['cut', 'trim', '80', null, null, null],
      ['packed', 'package', '70', null, 'Burger', 31],
    ]);
    expect(rowsIn(shop, 'SELECT * FROM animal_sum_now')).toEqual(rowsIn(shop, 'SELECT * FROM animal_sum'));
    expect(await shop.problem('import.undo', { id: animals })).toMatchObject({ code: 'import.since' });
    await shop.call('import.undo', { id });
    expect(whole(shop)).toBe(before);
    await shop.call('import.undo', { id: animals });
  });

  it('adds packages up for learning when single weights come in and when they are undone', async () => {
    const shop = await freshDesk();
    const instructions = {
      cutsShare: 0.4,
      fat: 'none',
      targetFat: null,
      grindProduct: 'Ground',
      packageGrams: 453.59237,
      extras: [],
    };
    await takeIn(shop, { instructions });
    const packedGround = (): unknown[] =>
      rowsIn(
        shop,
        'SELECT packed_ground FROM cut_sum UNION ALL SELECT packed_ground FROM cut_sum_now',
      ).flat();
    const { id } = await importTable(
      shop,
      'weighings',
      'Ticket,Part,Weight,Product\n26-0001,packed,10 kg,Ground',
    );
    expect(packedGround()).toEqual([10_000, 10_000]);
    await shop.call('import.undo', { id });
    expect(packedGround()).toEqual([0, 0]);
  });

  it('gives no weight to an animal that is not there, or was handed over here', async () => {
    const shop = await freshDesk();
    const look = await previewTable(shop, 'weighings', 'Ticket,Part,Weight\n23-0009,trim,12\n,trim,12');
    expect(look.problems.map(({ field, problem }) => [field, problem.code])).toEqual([
      ['ticket', 'ticket.unknown'],
      ['ticket', 'sheet.lacks'],
    ]);
  });
});

describe('a part that a table says there was none of', () => {
  const TABLE = [
    'No,Date,Species,Customer,Brought as,Hanging,Whole cuts,Trim,Bone,Damage cut away,Own fat',
    '1,2023-11-04,elk,Dana Whitlock,skinned,300,90,80,70,0,none',
    '2,2023-11-05,elk,Dana Whitlock,skinned,310,95,85,75,,-',
    '3,2023-11-06,elk,Dana Whitlock,skinned,320,95,85,75,0.0 lb,n/a',
  ].join('\n');
  const SUMS = 'SELECT bone IS NULL, damage, fat_saved FROM animal_sum ORDER BY animal_id';

  it('is stated by 0 or the word, and is unknown where its cell is empty or a dash', async () => {
    const shop = await freshDesk();
    const before = whole(shop);
    const look = await previewTable(shop, 'animals', TABLE);
    expect(look.problems).toEqual([]);
    expect(look.counts).toMatchObject({ animals: 3, weighings: 12, none: 3 });
    expect(look.first[0]?.cells).toContainEqual({ field: 'cutAway', text: 'none' });
    const { id } = await importTable(shop, 'animals', TABLE);
    expect(rowsIn(shop, SUMS)).toEqual([
      [0, 0, 0],
      [0, null, null],
      [0, 0, null],
    ]);
    expect(await shop.call('import.list', {})).toMatchObject([{ weighings: 12, none: 3 }]);
    await shop.call('import.undo', { id });
    expect(whole(shop)).toBe(before);
  });

  it('comes with single weights too, not of meat nor of what is weighed, and is undone with its file', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    await shop.call('table.weigh', { animalId, stage: 'cut', part: 'bone', typed: '80' });
    const before = whole(shop);
    const table = (...rows: string[]): string =>
      ['Ticket,Part,Weight', ...rows.map((row) => `26-0001,${row}`)].join('\n');
    const wrong = await previewTable(shop, 'weighings', table('trim,0', 'bone,none', 'sinew,'));
    expect(wrong.problems.map(({ row, field, problem }) => [row, field, problem.code])).toEqual([
      [2, 'weight', 'sheet.none-of'],
      [3, 'weight', 'none.weighed'],
      [4, 'weight', 'sheet.lacks'],
    ]);
    const { id } = await importTable(shop, 'weighings', table('damage,0', 'sinew,none', 'damage,0'));
    expect(rowsIn(shop, 'SELECT damage, sinew, fat_saved FROM animal_sum')).toEqual([[0, 0, null]]);
    expect(rowsIn(shop, 'SELECT part, by FROM part_none')).toEqual([
      ['damage', ''],
      ['sinew', ''],
    ]);
    await shop.call('import.undo', { id });
    expect(whole(shop)).toBe(before);
  });

  it('keeps its file from being undone once it was voided', async () => {
    const shop = await freshDesk();
    await takeIn(shop);
    const { id } = await importTable(shop, 'weighings', 'Ticket,Part,Weight\n26-0001,damage,0');
    const { none } = await shop.call('animals.get', { ticket: '26-0001' });
    await shop.call('table.voidNone', { noneId: none[0]?.id ?? 0, reason: 'there was some' });
    expect(await shop.problem('import.undo', { id })).toMatchObject({
      code: 'import.since',
      with: { name: '26-0001', what: 'part_none' },
    });
  });
});

describe('a file on its way', () => {
  it('is refused torn, twice or unknown', async () => {
    const shop = await freshDesk();
    const { upload } = await shop.call('import.begin', { name: 'a.csv' });
    await shop.call('import.addPiece', { upload, from: 0, base64: 'TmFtZQ==' });
    expect(await shop.problem('import.addPiece', { upload, from: 0, base64: 'TmFtZQ==' })).toMatchObject({
      code: 'sheet.torn',
    });
    expect(await shop.problem('import.addPiece', { upload, from: 4, base64: '%%%' })).toMatchObject({
      code: 'sheet.torn',
    });
    expect(await shop.problem('import.preview', { upload: upload + 1, kind: 'hunters' })).toMatchObject({
      code: 'sheet.gone',
    });
    await shop.call('import.begin', { name: 'b.csv' });
    expect(await shop.problem('import.preview', { upload, kind: 'hunters' })).toMatchObject({
      code: 'sheet.gone',
    });
  });

  it('stays once the grinder took the trim that it tells of', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const { id } = await importTable(shop, 'weighings', 'Ticket,Part,Weight\n26-0001,trim,40\n', {}, true);
    const { id: batchId } = await shop.call('grinder.start', { animals: [{ id: animalId }], fat: 'none', targetFat: null, product: 'Ground' });
    const { weighingId } = await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed: '40' });
    expect(await shop.problem('import.undo', { id })).toMatchObject({ code: 'import.since', with: { name: '26-0001' } });
    await shop.call('table.void', { weighingId, reason: 'another animal' });
    await shop.call('import.undo', { id });
    expect((await shop.call('animals.get', { id: animalId })).weighings).toHaveLength(2);
  }); // prettier-ignore

  it('does not cut one that came from a file, was opened again, and is on hold', async () => {
    const shop = await freshDesk();
    await importTable(
      shop,
      'animals',
      'Name,Species,Brought in as,Date received,Hanging weight\nDana Whitlock,Elk,skinned,10/01/2024,300\n',
    );
    await shop.call('animals.reopen', { id: 1, reason: 'some of it is still here' });
    await shop.call('animals.hold', { id: 1, reason: 'sample', sample: 'L1' });
    const { ticket } = await shop.call('animals.get', { id: 1 });
    const { problems } = await previewTable(shop, 'weighings', `Ticket,Part,Weight\n${ticket},trim,40\n`);
    expect(problems).toMatchObject([{ row: 2, field: 'ticket', problem: { code: 'cut.held' } }]);
  });

  it('stays as the animal is picked up with it: its file is undone only once the animal is opened again', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const file = await importTable(shop, 'weighings', 'Ticket,Part,Weight\n26-0001,trim,40\n');
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    await shop.call('pickup.release', { id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    expect(await shop.problem('import.undo', { id: file.id })).toMatchObject({
      kind: 'refused',
      code: 'animal.closed',
      with: { ticket: '26-0001', stage: 'released' },
    });
    expect((await shop.call('animals.get', { id })).weighings).toHaveLength(2);
    await shop.call('animals.reopen', { id, reason: 'the file was of another shop' });
    await shop.call('import.undo', { id: file.id });
    expect((await shop.call('animals.get', { id })).weighings).toHaveLength(1);
  });

  it('does not cut an animal on hold', async () => {
    const shop = await freshDesk();
    await takeIn(shop, { sample: 'L1' });
    const cutRow = await previewTable(shop, 'weighings', 'Ticket,Part,Weight\n26-0001,bone,4\n');
    expect(cutRow.problems).toMatchObject([{ row: 2, field: 'ticket', problem: { code: 'cut.held' } }]);
    const noneRow = await previewTable(shop, 'weighings', 'Ticket,Part,Weight\n26-0001,damage,0\n');
    expect(noneRow.problems).toMatchObject([{ row: 2, problem: { code: 'cut.held' } }]);
    const hangRow = await previewTable(shop, 'weighings', 'Ticket,Part,Weight\n26-0001,hanging,4\n');
    expect(hangRow.problems).toEqual([]);
  });

  it.each([
    ['sheet.empty', ''],
    ['sheet.not-text', 'PK\u0003\u0004 a workbook'],
    ['sheet.quote', 'Name,Phone\nDana,1\n"Rosa,2\n'],
    ['sheet.row-too-long', `Name,Phone\n"${'x'.repeat(300_000)}",1`],
  ])('%s', async (code, content) => {
    const shop = await freshDesk();
    const upload = await uploadFile(shop, content);
    expect(await shop.problem('import.preview', { upload, kind: 'hunters' })).toMatchObject({ code });
  });
});

async function again(shop: FreshDesk, content: string) {
  const { upload, layout } = await previewTable(shop, 'hunters', content);
  return { upload, kind: 'hunters', layout };
}
