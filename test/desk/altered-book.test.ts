/** What a shop meets when another program, or another computer, left something in its book that does not belong there. */
import {
  chmodSync,
  existsSync,
  lchownSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, vi } from 'vitest';
import { backupFolder, listBackups } from '../../src/book/file/backup.ts';
import { makeFormat } from '../../src/ui/texts/format.ts';
import { problemMessage } from '../../src/ui/texts/problem-message.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { guardedDesk } from './guarded-desk.ts';

const SPY = "CREATE TRIGGER spy AFTER INSERT ON hunter BEGIN UPDATE hunter SET note = 'was here'; END";

function inFile(path: string, sql: string): void {
  const db = new Database(path);
  db.exec(sql);
  db.close();
}

/** Sets what a setting says, as another program would. */
const setTo = (path: string, key: string, value: string): void =>
  inFile(path, `INSERT OR REPLACE INTO setting VALUES ('${key}', '${value}')`);

async function shopWith(name: string) {
  const shop = await guardedDesk();
  await shop.call('shop.setUp', { shopName: 'Test Locker', unit: 'lb' });
  await shop.call('shop.saveSettings', { changes: { zone: 'America/Denver' } });
  await shop.call('hunters.save', { name });
  return shop;
}

type Shop = Awaited<ReturnType<typeof shopWith>>;
const names = async (shop: Shop) =>
  (await shop.call('hunters.find', { text: 'hunter' })).map(({ name }) => name);

describe('a trigger that was planted in a backup', () => {
  it('is named by the trial, is not restored, and stays behind when only the records are opened', async () => {
    const shop = await shopWith('Hunter A');
    const { path } = await shop.call('shop.backUp', {});
    inFile(path, SPY);
    for (const call of ['shop.tryBackup', 'shop.restore'] as const) {
      const problem = await shop.problem(call, { path });
      expect(problem).toMatchObject({
        code: 'backup.altered',
        with: { how: 'added', what: 'trigger', name: 'spy' },
      });
    }
    expect(await names(shop)).toEqual(['Hunter A']);
    const tried = await shop.call('shop.tryBackup', { path, recordsOnly: true });
    expect(tried).toMatchObject({ own: true, shop: 'Test Locker' });
    await shop.call('shop.restore', { path, recordsOnly: true });
    await shop.call('hunters.save', { name: 'Hunter B' });
    shop.desk.close();
    const db = new Database(shop.bookPath, { readonly: true });
    expect(db.prepare('SELECT name, note FROM hunter').all()).toEqual([
      { name: 'Hunter A', note: '' },
      { name: 'Hunter B', note: '' },
    ]);
    db.close();
  });
});

describe('a trigger that was planted in the book', () => {
  it('keeps it shut with a sentence that names it, until its records are put into a clean book', async () => {
    const shop = await shopWith('Hunter A');
    shop.desk.close();
    inFile(shop.bookPath, SPY);
    rmSync(join(backupFolder(shop.bookPath), 'last closed.sha256'));
    const again = await guardedDesk(shop.bookPath);
    const problem = await again.problem('hunters.find', { text: '' });
    expect(problem).toMatchObject({ code: 'book.altered', with: { what: 'trigger', name: 'spy' } });
    const before = readFileSync(shop.bookPath);
    const { setAside } = await again.call('shop.keepRecords', {});
    expect(readFileSync(setAside ?? '').equals(before)).toBe(true);
    expect(await names(again)).toEqual(['Hunter A']);
    expect((await again.problem('shop.keepRecords', {})).code).toBe('book.not-altered');
  });

  it('is noticed while the book is open, before anything else is written', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    try {
      const shop = await guardedDesk(tempBookPath(), undefined, { backUpEvery: 1e9, lookEvery: 2_000 });
      await shop.call('shop.setUp', { shopName: 'Test Locker', unit: 'lb' });
      inFile(shop.bookPath, SPY);
      expect((await shop.problem('hunters.save', { name: 'Hunter B' })).code).toBe('book.altered');
      await shop.call('shop.keepRecords', {});
      expect(await names(shop)).toEqual([]);
      inFile(shop.bookPath, SPY);
      vi.advanceTimersByTime(2_000);
      expect(shop.desk.trouble()?.code).toBe('altered');
      expect(shop.broken).toEqual([]);
    } finally {
      vi.useRealTimers();
    }
  });
});

describe('a setting that makes no sense here', () => {
  it('a time zone that is not known gives way to the computer’s, is named in the Shop, and can be chosen anew', async () => {
    const shop = await shopWith('Hunter A');
    shop.desk.close();
    setTo(shop.bookPath, 'zone', '"Mars/Olympus"');
    rmSync(join(backupFolder(shop.bookPath), 'last closed.sha256'));
    const again = await guardedDesk(shop.bookPath);
    const look = await again.call('shop.get', {});
    const { zone } = look.settings;
    expect(() => new Intl.DateTimeFormat('en', { timeZone: zone })).not.toThrow();
    expect(look.settingsReplaced).toEqual([{ setting: 'zone', kept: 'Mars/Olympus', used: zone }]);
    await again.call('rail.get', {});
    // The zone that is gone by meanwhile may well be the right one.
    const after = await again.call('shop.saveSettings', { changes: { zone } });
    expect(after.settingsReplaced).toEqual([]);
    expect(
      (await again.call('shop.saveSettings', { changes: { zone: 'America/Denver' } })).settings.zone,
    ).toBe('America/Denver');
  });

  it.each([
    ['shopName', '7'],
    ['unit', '"stone"'],
    ['step', '"x"'],
    ['currency', 'null'],
    ['locale', '"no such language"'],
    ['seasonStartsMonth', '99'],
    ['hangingLimitDays', '{}'],
    ['coolerLimitC', '"cold"'],
    ['recordSet', '[]'],
    ['recordFields', '"all"'],
    ['secondBackupFolder', '12'],
    ['theme', '"pink"'],
  ])('%s of %s gives way to the usual one', async (key, value) => {
    const shop = await shopWith('Hunter A');
    setTo(shop.bookPath, key, value);
    const look = await shop.call('shop.get', {});
    expect(look.settingsReplaced.map(({ setting }) => setting)).toEqual([key]);
    for (const call of [
      'rail.get',
      'shop.listBackups',
      'shop.backUp',
      'costing.get',
      'fat.listLots',
    ] as const)
      await shop.call(call, {});
    expect(shop.broken).toEqual([]);
  });

  it.each([
    ['clockTrusted', 'null'],
    ['clockTrusted', '"yes"'],
    ['backupLock', '{"key":1}'],
    ['costing', '{"wagePerHour":"much"}'],
    ['bringIn.hunters', '[]'],
    ['bookIdentity', '{}'],
  ])('%s of %s stops neither writing, backing up, costing nor bringing a table in', async (key, value) => {
    const before = await shopWith('Hunter A');
    const stick = join(dirname(before.bookPath), 'stick');
    mkdirSync(stick);
    await before.call('shop.saveSettings', { changes: { secondBackupFolder: stick } });
    before.desk.close();
    setTo(before.bookPath, key, value);
    rmSync(join(backupFolder(before.bookPath), 'last closed.sha256'));
    const shop = await guardedDesk(before.bookPath);
    await shop.call('hunters.save', { name: 'Hunter B' });
    expect((await shop.call('shop.backUp', {})).secondProblem).toBeNull();
    await shop.call('costing.get', {});
    const { upload } = await shop.call('import.begin', { name: 'hunters.csv' });
    const base64 = Buffer.from('Name,Phone\nAnn Miller,307 555 0123\n').toString('base64');
    await shop.call('import.addPiece', { upload, from: 0, base64 });
    await shop.call('import.preview', { upload, kind: 'hunters' });
    expect(shop.broken).toEqual([]);
  });

  it.each([
    ["INSERT INTO species_profile VALUES ('elk', '{}', 1)"],
    ["INSERT INTO species_profile VALUES ('elk', '[1]', 1)"],
    ['INSERT INTO species_profile VALUES (\'yeti\', \'{"code":"yeti","primals":3}\', 1)'],
    ["INSERT INTO product (code, name, kind, body, active) VALUES ('x', 'X', 'grind', '7', 1)"],
    [
      'INSERT INTO instruction_template (name, carcass, body, active) VALUES (\'x\', NULL, \'{"cutsShare":"all"}\', 1)',
    ],
  ])('%s stops no window', async (sql) => {
    const shop = await shopWith('Hunter A');
    inFile(shop.bookPath, sql);
    const look = await shop.call('shop.get', {});
    expect(look.species.some(({ code }) => code === 'elk')).toBe(true);
    expect(look.products.filter(({ packageGrams }) => packageGrams === undefined)).toEqual([]);
    expect(look.templates.filter(({ instructions }) => typeof instructions.cutsShare !== 'number')).toEqual(
      [],
    );
    await shop.call('rail.get', {});
    expect(shop.broken).toEqual([]);
  });
});

it('has a sentence for each way in which a book may differ', () => {
  const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
  const said = (more: object): string =>
    problemMessage({ kind: 'broken', code: 'book.altered', with: { path: '/b', ...more } }, format);
  expect(said({ how: 'added', what: 'index', name: 'x' })).toContain('“x” (index) was added.');
  expect(said({ how: 'missing', what: 'table', name: 'x' })).toContain('“x” (table) is missing.');
  expect(said({ how: 'changed', what: 'view', name: 'x' })).toContain('“x” (view) is not as Gambrel made it');
  expect(said({})).toContain('its version number does not match its contents');
});

describe('a folder of backups that cannot be used', () => {
  it('takes neither the start nor the Shop page down, and is told there', async () => {
    const shop = await shopWith('Hunter A');
    shop.desk.close();
    rmSync(backupFolder(shop.bookPath), { recursive: true });
    writeFileSync(backupFolder(shop.bookPath), 'no folder');
    const again = await guardedDesk(shop.bookPath);
    expect((await again.call('shop.get', {})).lastBackup).toBeNull();
    const look = await again.call('shop.listBackups', {});
    expect(look.unreadable).toMatchObject([
      { code: 'book.backups', with: { path: backupFolder(shop.bookPath) } },
    ]);
    expect(await again.problem('shop.backUp', {})).toMatchObject(look.unreadable[0] ?? {});
    await again.call('hunters.save', { name: 'Hunter B' });
    again.desk.close();
    expect(again.broken).toHaveLength(1); // the backup on closing
  });

  it('elsewhere leaves the rest in the list', async () => {
    const shop = await shopWith('Hunter A');
    await shop.call('shop.backUp', {});
    const stick = join(dirname(shop.bookPath), 'stick');
    writeFileSync(stick, 'no folder');
    const look = await shop.call('shop.listBackups', { folder: stick });
    expect(look.rows).toHaveLength(1);
    expect(look.unreadable).toMatchObject([{ code: 'second.unreadable', with: { path: stick } }]);
  });

  it('holding links, folders and files that went away shows the backups alone', async () => {
    const shop = await shopWith('Hunter A');
    const { path } = await shop.call('shop.backUp', {});
    symlinkSync('/nowhere', path.replace('.gambrel', ' (2).gambrel'));
    mkdirSync(path.replace('.gambrel', ' (3).gambrel'));
    expect((await shop.call('shop.listBackups', {})).rows.map((row) => row.path)).toEqual([path]);
    expect((await shop.call('shop.get', {})).lastBackup?.path).toBe(path);
  });

  it('is not followed where another account laid a link to its own', async () => {
    if (process.getuid?.() !== 0) return; // only root can lay a link for another account
    const shop = await shopWith('Hunter A');
    const theirs = join(dirname(shop.bookPath), 'theirs');
    mkdirSync(theirs);
    chmodSync(theirs, 0o777);
    symlinkSync(theirs, backupFolder(shop.bookPath));
    lchownSync(backupFolder(shop.bookPath), 65_534, 65_534);
    expect((await shop.problem('shop.backUp', {})).code).toBe('book.backups');
    expect(readdirSync(theirs)).toEqual([]);
    expect(listBackups(shop.bookPath)).toEqual([]);
    expect(existsSync(backupFolder(shop.bookPath))).toBe(true);
  });
});
