/** Backups from before a removal are named, and made anew without ever being without a way back. */
import {
  existsSync,
  chmodSync,
  lchownSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { backupFolder, listBackups } from '../../../src/book/file/backup.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';

const NAME = 'Qzxmark Ridge';

/** A shop with backups here and in a second place, from before a hunter's details were removed. */
async function removed() {
  const shop = await freshDesk();
  const second = mkdtempSync(join(tmpdir(), 'gambrel-second-'));
  onTestFinished(() => rmSync(second, { recursive: true, force: true }));
  await shop.call('shop.saveSettings', { changes: { secondBackupFolder: second } });
  const { id } = await shop.call('hunters.save', { name: NAME, phone: '555-0142' });
  await shop.call('shop.backUp', {});
  shop.wait(3600);
  await shop.call('hunters.save', { name: 'Cy Marsh' });
  await shop.call('shop.backUp', {});
  shop.wait(3600);
  await shop.call('hunters.removeDetails', { id, reason: 'asked' });
  shop.wait(60);
  return { shop, second };
}
const holding = async (shop: FreshDesk) =>
  (await shop.call('shop.listBackups', {})).rows.filter(({ holdsRemoved }) => holdsRemoved);
const saysName = (path: string): boolean => readFileSync(path).toString('latin1').includes('Qzxmark');

describe('backups from before a removal', () => {
  it('are listed with their date and place, and later ones are not', async () => {
    const { shop, second } = await removed();
    const rows = await holding(shop);
    expect(rows.map(({ place }) => place).sort()).toEqual(['away', 'away', 'beside', 'beside']);
    expect(rows.map(({ path }) => path).filter(saysName)).toHaveLength(4);
    await shop.call('shop.backUp', {});
    expect(await holding(shop)).toHaveLength(4);
    expect(readdirSync(second)).toHaveLength(3);
    shop.desk.close();
  });

  it('report it when one is tried; a later one does not', async () => {
    const { shop, second } = await removed();
    const trying = async (path: string) => (await shop.call('shop.tryBackup', { path })).holdsRemoved;
    for (const { path } of await holding(shop)) expect(await trying(path), path).toBe(true);
    const { path } = await shop.call('shop.backUp', {});
    expect(await trying(path)).toBe(false);
    expect(readdirSync(second)).toHaveLength(3);
    shop.desk.close();
  });

  it('report it when an encrypted one is tried', async () => {
    const shop = await freshDesk();
    const second = mkdtempSync(join(tmpdir(), 'gambrel-second-'));
    onTestFinished(() => rmSync(second, { recursive: true, force: true }));
    await shop.call('shop.setLock', { passphrase: 'nine tails of a cat' });
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: second } });
    const { id } = await shop.call('hunters.save', { name: NAME, phone: '555-0142' });
    await shop.call('shop.backUp', {});
    shop.wait(3600);
    await shop.call('hunters.removeDetails', { id, reason: 'asked' });
    const [away] = (await shop.call('shop.listBackups', {})).rows.filter(({ place }) => place === 'away');
    expect(away).toMatchObject({ locked: true });
    expect(await shop.call('shop.tryBackup', { path: away?.path ?? '' })).toMatchObject({
      own: true,
      holdsRemoved: true,
    });
    shop.desk.close();
  });

  it("are replaced: fresh ones in both places, none with the name, and another book's unchanged", async () => {
    const { shop, second } = await removed();
    const other = join(second, 'other book-00000000 2026-10-09T10-00-00.gambrel');
    writeFileSync(other, 'not ours');
    const answer = await shop.call('shop.renewBackups', { by: 'RO' });
    expect(answer).toMatchObject({ deleted: 4, left: [] });
    expect(await holding(shop)).toEqual([]);
    const here = listBackups(shop.bookPath).map(({ path }) => path);
    expect(here).toEqual([answer.made]);
    expect([...here, answer.second ?? ''].some(saysName)).toBe(false);
    expect(existsSync(other)).toBe(true);
    await shop.call('shop.tryBackup', { path: answer.made });
    expect(await shop.problem('shop.renewBackups', {})).toMatchObject({ code: 'backup.none-before' });
    shop.desk.close();
  });

  it('are kept while the clock cannot be right', async () => {
    const { shop } = await removed();
    shop.wait(100 * 365 * 86_400);
    expect(await shop.problem('shop.renewBackups', {})).toMatchObject({ code: 'clock.impossible' });
    expect(await holding(shop)).toHaveLength(4);
    shop.desk.close();
  });

  it('are kept where the fresh one failed: the stick is missing, or the folder is read-only', async () => {
    const { shop, second } = await removed();
    const away = readdirSync(second).sort();
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: join(second, 'gone') } });
    expect(await shop.call('shop.renewBackups', {})).toMatchObject({ second: null, deleted: 2 });
    expect(readdirSync(second).sort()).toEqual(away);
    await shop.call('shop.saveSettings', { changes: { secondBackupFolder: second } });
    expect(await shop.call('shop.renewBackups', {})).toMatchObject({ deleted: 2, left: [] });
    shop.desk.close();

    const full = await removed();
    const folder = backupFolder(full.shop.bookPath);
    const before = readdirSync(folder).sort();
    // Root may write anywhere, but not through another account's link.
    const asRoot = process.getuid?.() === 0;
    if (asRoot) {
      renameSync(folder, `${folder} moved`);
      symlinkSync(`${folder} moved`, folder);
      lchownSync(folder, 65_534, 65_534);
    } else chmodSync(folder, 0o500);
    const problem = await full.shop.problem('shop.renewBackups', {});
    expect(problem).toMatchObject({ kind: 'broken', code: 'book.backups', with: { path: folder } });
    if (!asRoot) chmodSync(folder, 0o700);
    expect(readdirSync(folder).sort()).toEqual(before);
    full.shop.desk.close();
  });
});
