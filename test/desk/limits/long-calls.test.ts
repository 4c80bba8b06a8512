/** Calls that take long run in the worker thread: others are answered meanwhile, and what they write is whole or not there. */
import { readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listBackups } from '../../../src/book/file/backup.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { uploadFile, previewTable } from '../import/import-file.ts';
import { deskOn, freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { guardedDesk } from '../guarded-desk.ts';

const ROWS = 4000;
/** Long enough for the worker, short enough for a test. */
const table = (rows = ROWS): string =>
  ['Name,Phone', ...Array.from({ length: rows }, (_, n) => `Hunter ${n},307-555-${n}`)].join('\n');

/** How often other calls were answered while a call went on, and what came of that. */
async function meanwhile<T>(
  shop: FreshDesk,
  long: Promise<T>,
  ask: () => Promise<unknown> = () => shop.call('rail.get', {}),
): Promise<{ value: T; answered: number }> {
  let over = false;
  const done = long.finally(() => (over = true));
  let answered = 0;
  while (!over) {
    await ask();
    answered += 1;
    await new Promise((next) => setImmediate(next));
  }
  return { value: await done, answered };
}

describe('a long table', () => {
  it('is looked at and brought in while other calls are answered, and undone the same way', async () => {
    const shop = await freshDesk();
    const upload = await uploadFile(shop, table());
    const look = await meanwhile(shop, shop.call('import.preview', { upload, kind: 'hunters' }));
    expect(look.answered).toBeGreaterThan(10);
    const { layout } = look.value;
    const brought = await meanwhile(shop, shop.call('import.run', { upload, kind: 'hunters', layout }));
    expect(brought.answered).toBeGreaterThan(10);
    expect(brought.value).toMatchObject({ rows: ROWS, hunters: ROWS });
    expect(await shop.call('hunters.find', { text: `Hunter ${ROWS - 1}` })).toHaveLength(1);
    const undone = await meanwhile(shop, shop.call('import.undo', { id: brought.value.id }));
    expect(undone.answered).toBeGreaterThan(10);
    expect(await shop.call('hunters.find', { text: 'Hunter' })).toEqual([]);
    expect(shop.broken).toEqual([]);
  }, 60_000);

  it('lets an entry that comes meanwhile wait its turn, and keeps it', async () => {
    const shop = await freshDesk();
    const { upload, layout } = await previewTable(shop, 'hunters', table());
    const order: string[] = [];
    const bringing = shop
      .call('import.run', { upload, kind: 'hunters', layout })
      .then(() => order.push('brought in'));
    const saving = takeIn(shop, {}, '300').then(() => order.push('taken in'));
    await Promise.all([bringing, saving]);
    expect(order).toEqual(['brought in', 'taken in']);
    const { hunter } = await shop.call('animals.get', { ticket: '26-0001' });
    expect(hunter.name).toBe('Dana Whitlock');
  }, 60_000);

  it('with a wrong row is refused in the same words as a short one, and nothing of it is kept', async () => {
    const shop = await freshDesk();
    const { upload, layout } = await previewTable(shop, 'hunters', `${table()}\n,307-555-0000`);
    expect(await shop.problem('import.run', { upload, kind: 'hunters', layout })).toMatchObject({
      kind: 'refused',
      code: 'sheet.problems',
      with: { count: 1, row: ROWS + 2 },
    });
    expect(await shop.call('hunters.find', { text: 'Hunter' })).toEqual([]);
    // The file lies ready still, as after any refusal.
    await shop.call('import.preview', { upload, kind: 'hunters', layout });
  }, 60_000);

  it('whose desk is closed meanwhile is in the book whole, which is one file', async () => {
    const shop = await freshDesk();
    const { upload, layout } = await previewTable(shop, 'hunters', table());
    const bringing = shop.desk.call('import.run', { upload, kind: 'hunters', layout });
    await new Promise((next) => setImmediate(next));
    shop.desk.close();
    await bringing;
    expect(readdirSync(dirname(shop.bookPath)).filter((name) => /-(wal|shm)$/.test(name))).toEqual([]);
    const again = await deskOn(shop.bookPath);
    const [found] = await again.call('import.list', {});
    expect(found).toMatchObject({ rows: ROWS, hunters: ROWS });
  }, 60_000);

  it('is brought in where no thread can be had, only slower', async () => {
    const broken = `${dirname(tempBookPath())}/no-worker.ts`;
    writeFileSync(broken, 'throw new Error("no thread here");');
    const shop = await deskOn(tempBookPath(), undefined, new URL(`file://${broken}`));
    await shop.call('shop.setUp', { shopName: 'Test Locker', unit: 'lb' });
    const { upload, layout } = await previewTable(shop, 'hunters', table());
    expect(await shop.call('import.run', { upload, kind: 'hunters', layout })).toMatchObject({
      hunters: ROWS,
    });
  }, 60_000);
});

describe('a long table of animals of earlier seasons', () => {
  it('leaves the summaries of those seasons behind, so that the next quote does not go over all of them', async () => {
    const shop = await freshDesk();
    const rows = Array.from(
      { length: 2000 },
      (_, n) =>
        `${n},20${14 + (n % 10)}-11-0${1 + (n % 9)},Hunter ${n},mule deer,skinned,${60 + (n % 40)},${30 + (n % 20)}`,
    );
    const text = ['No,Date,Customer,Species,Brought as,Hanging,Take home', ...rows].join('\n');
    const { upload, layout } = await previewTable(shop, 'animals', text);
    await shop.call('import.run', { upload, kind: 'animals', layout, confirmed: true });
    const taught = inBook(shop, ({ db }) => db.prepare('SELECT count(*) FROM season_taught').pluck().get());
    expect(taught).toBe(10);
  }, 60_000);
});

describe('a large book', () => {
  it('is backed up, tried and copied while other calls are answered and entries are kept', async () => {
    const bookPath = tempBookPath();
    await demoAt(bookPath);
    const shop = await guardedDesk(bookPath, '2026-11-24T18:00:00Z');
    const { upload, layout } = await previewTable(shop, 'hunters', table(60_000));
    await shop.call('import.run', { upload, kind: 'hunters', layout });
    expect(statSync(bookPath).size).toBeGreaterThan(10_000_000);
    let saved = 0;
    const { answered, value } = await meanwhile(shop, shop.call('shop.backUp', {}), async () => {
      await shop.call('hunters.save', { name: `Hunter Meanwhile ${(saved += 1)}` });
    });
    expect(saved).toBeGreaterThan(10);
    expect(answered).toBeGreaterThan(10);
    expect(value.secondProblem).toBeNull();
    const { rows } = await shop.call('shop.listBackups', {});
    const tried = await meanwhile(shop, shop.call('shop.tryBackup', { path: rows[0]?.path ?? '' }));
    expect(tried.answered).toBeGreaterThan(10);
    expect(tried.value).toMatchObject({ own: true, shop: expect.any(String) });
    const packed = await meanwhile(shop, shop.call('export.create', { what: 'book' }));
    const first = await shop.call('export.getPiece', { id: packed.value.id, from: 0 });
    expect(Buffer.from(first.base64, 'base64').subarray(0, 15).toString()).toBe('SQLite format 3');
    // What was kept after the backup began makes another one due.
    shop.desk.close();
    expect(listBackups(bookPath)).toHaveLength(2);
    expect(shop.broken).toEqual([]);
  }, 120_000);
});

describe('a first look at a season', () => {
  it.each(['costing.get', 'season.check'] as const)(
    'by %s is read in slices, with others answered in between, and says what a second look says',
    async (call) => {
      const bookPath = tempBookPath();
      await demoAt(bookPath);
      const shop = await deskOn(bookPath, '2026-11-24T18:00:00Z');
      const first = await meanwhile(shop, shop.call(call, {}), () => shop.call('shop.get', {}));
      expect(first.answered).toBeGreaterThanOrEqual(4);
      expect(await shop.call(call, {})).toEqual(first.value);
      shop.desk.close();
    },
    60_000,
  );
});

describe('a passphrase', () => {
  it('is made into a key while others are answered', async () => {
    const shop = await freshDesk();
    const set = await meanwhile(shop, shop.call('shop.setLock', { passphrase: 'nine tails of a cat' }));
    expect(set.answered).toBeGreaterThan(3);
    expect(await shop.call('shop.listBackups', {})).toMatchObject({ locked: true });
    expect(await shop.call('shop.setLock', { passphrase: null })).toEqual({ locked: false });
    expect(shop.broken).toEqual([]);
    shop.desk.close();
  });
});
