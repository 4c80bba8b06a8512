/** A temporary disk without room: exports and imports are refused by its name, and the desk works on. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, rmSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { listBackups } from '../../../src/book/file/backup.ts';
import { bookErrorOf } from '../../../src/book/file/book-error.ts';
import { clearLeftovers } from '../../../src/desk/session/temporary.ts';
import { smallDisk } from '../../book/small-disk.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { uploadFile } from '../import/import-file.ts';
import { freshDesk, takeIn } from '../fresh-desk.ts';
import { guardedDesk } from '../guarded-desk.ts';

/** Uses `folder` for temporary files until the test ends. */
function temporaryIn(folder: string): string {
  const before = process.env.TMPDIR;
  process.env.TMPDIR = folder;
  onTestFinished(() => {
    if (before === undefined) delete process.env.TMPDIR;
    else process.env.TMPDIR = before;
  });
  return folder;
}

/** A temporary disk of `kilobytes`; null where this computer lets nobody mount one. */
function smallTemporary(kilobytes: number): string | null {
  const disk = smallDisk(kilobytes);
  if (!disk) {
    expect(process.getuid?.()).not.toBe(0); // only who may mount can try this
    return null;
  }
  onTestFinished(() => disk.remove());
  return temporaryIn(disk.path);
}

/** The demo's seasons in a book of its own, on a clock that stands at `start`. */
async function grownDesk() {
  const bookPath = tempBookPath();
  await demoAt(bookPath);
  return guardedDesk(bookPath, '2026-11-24T18:00:00Z');
}

describe('an export to a full temporary disk', () => {
  // Sizes at which it fails at the very first rows, amid a table, and between two.
  it.each([40, 200, 400])(
    'of %i KB is refused by its name, and the desk writes on',
    async (kilobytes) => {
      const shop = await grownDesk();
      const disk = smallTemporary(kilobytes);
      if (!disk) return;
      for (const what of ['tables', 'text', 'book'] as const) {
        const problem = { kind: 'broken', code: 'temporary.full', with: { path: disk } };
        expect(await shop.problem('export.create', { what }), what).toEqual(problem);
        expect(readdirSync(disk)).toEqual([]);
        await shop.call('hunters.save', { name: `Hunter after ${what}` });
      }
      await shop.call('shop.backUp', {});
      shop.wait(60);
      await shop.call('hunters.save', { name: 'Hunter at the end' });
      expect(shop.broken).toEqual([]);
      shop.desk.close();
      expect(listBackups(shop.bookPath)).toHaveLength(2);
    },
    60_000,
  );
});

describe('an import over a full temporary disk', () => {
  const line = (n: number): string => `Hunter ${n},555-${String(n).padStart(4, '0')}\n`;
  const table = `Name,Phone\n${Array.from({ length: 9000 }, (_, n) => line(n)).join('')}`;

  it('can resend a chunk that did not fit, without duplicates', async () => {
    const shop = await freshDesk();
    const disk = smallTemporary(300);
    if (!disk) return;
    const bytes = Buffer.from(table);
    const piece = (from: number, to: number) => bytes.subarray(from, to).toString('base64');
    writeFileSync(join(disk, 'ballast'), Buffer.alloc(150_000));
    const { upload } = await shop.call('import.begin', { name: 'old.csv' });
    await shop.call('import.addPiece', { upload, from: 0, base64: piece(0, 100_000) });
    const rest = { upload, from: 100_000, base64: piece(100_000, bytes.length) };
    expect(await shop.problem('import.addPiece', rest)).toMatchObject({
      code: 'temporary.full',
      with: { path: disk },
    });
    rmSync(join(disk, 'ballast'));
    expect(await shop.call('import.addPiece', rest)).toEqual({ bytes: bytes.length });
    const { layout, rows } = await shop.call('import.preview', { upload, kind: 'hunters' });
    expect(rows).toBe(9000);
    await shop.call('import.run', { upload, kind: 'hunters', layout });
  }, 60_000);

  it('of a whole book reports the disk, not a row, and changes nothing', async () => {
    const full = await grownDesk();
    const { id, bytes } = await full.call('export.create', { what: 'text' });
    const pieces: Buffer[] = [];
    for (let from = 0; from < bytes; from += pieces.at(-1)?.length ?? bytes)
      pieces.push(Buffer.from((await full.call('export.getPiece', { id, from })).base64, 'base64'));
    const shop = await freshDesk();
    // Room for the text itself, and not for the book made of it.
    const disk = smallTemporary(Math.round(bytes / 1000) + 600);
    if (!disk) return;
    const upload = await uploadFile(shop, Buffer.concat(pieces), 'book.json');
    expect(await shop.problem('import.book', { upload })).toEqual({
      kind: 'broken', code: 'temporary.full', with: { path: disk },
    }); // prettier-ignore
    await takeIn(shop);
    expect(readdirSync(disk)).toHaveLength(1);
  }, 60_000);
});

describe('what SQLite calls full', () => {
  it('reports the full place: the temporary folder, or the disk of the book', () => {
    const book = tempBookPath();
    const full = new Database.SqliteError('database or disk is full', 'SQLITE_FULL');
    const disk = smallTemporary(40);
    if (!disk) return;
    expect(bookErrorOf(full, book)).toMatchObject({ code: 'temporary', path: disk });
    temporaryIn(dirname(book));
    expect(bookErrorOf(full, join(disk, 'shop.gambrel'))).toMatchObject({ code: 'full' });
  });
});

describe('a long export', () => {
  it('blocks no other call, and contains the book as it was at its start', async () => {
    const shop = await grownDesk();
    let packed = false;
    const packing = shop.call('export.create', { what: 'text' }).then((parcel) => {
      packed = true;
      return parcel;
    });
    await shop.call('hunters.save', { name: 'Hunter Meanwhile' });
    await new Promise((done) => setImmediate(done));
    await shop.call('hunters.save', { name: 'Hunter Afterwards' });
    expect(packed).toBe(false);
    const { id, bytes } = await packing;
    let text = '';
    for (let from = 0; from < bytes;) {
      const piece = Buffer.from((await shop.call('export.getPiece', { id, from })).base64, 'base64');
      text += piece.toString('latin1');
      from += piece.length;
    }
    expect(JSON.parse(text)).toMatchObject({ format: 'gambrel-book' });
    expect(text).not.toContain('Hunter Afterwards');
  }, 60_000);

  it.each(['tables', 'text'] as const)(
    'of %s ends when the book is closed, which is one whole file then',
    async (what) => {
      const place = temporaryIn(dirname(tempBookPath()));
      const before = process.env.TMPDIR;
      process.env.TMPDIR = '/tmp';
      const shop = await grownDesk();
      process.env.TMPDIR = before;
      const packing = shop.desk.call('export.create', { what });
      await new Promise((done) => setImmediate(done));
      expect(readdirSync(place)).toHaveLength(1);
      shop.desk.close();
      expect(await packing).toMatchObject({ ok: false, problem: { code: 'book.other-opening' } });
      expect(readdirSync(place)).toEqual([]);
      expect(readdirSync(dirname(shop.bookPath)).filter((name) => /-(wal|shm)$/.test(name))).toEqual([]);
      expect(shop.broken).toEqual([]);
    },
    60_000,
  );
});

describe('a leftover in the temporary folder', () => {
  it('is deleted at the next start, and nothing else is', async () => {
    const place = temporaryIn(dirname(tempBookPath()));
    const gone = spawnSync('true').pid;
    const make = (name: string): void => {
      mkdirSync(join(place, name));
      writeFileSync(join(place, name, 'file'), 'Dana Whitlock');
    };
    const old = new Date(Date.now() - 2 * 86_400_000);
    for (const name of [`gambrel-out-${gone}-aB3dE6`, `gambrel-file-${gone}-aB3dE6`, 'gambrel-fill-aB3dE6'])
      make(name);
    utimesSync(join(place, 'gambrel-fill-aB3dE6'), old, old);
    const kept = [
      `gambrel-out-${process.pid}-aB3dE6`,
      'gambrel-out-zZ3dE6',
      `gambrel-note-${gone}-aB3dE6`,
      `other-${gone}`,
    ];
    for (const name of kept) make(name);
    symlinkSync(join(place, kept[0] ?? ''), join(place, `gambrel-demo-${gone}-aB3dE6`));
    clearLeftovers();
    expect(readdirSync(place).sort()).toEqual([...kept, `gambrel-demo-${gone}-aB3dE6`].sort());
    expect(existsSync(join(place, kept[0] ?? '', 'file'))).toBe(true);
    expect(tmpdir()).toBe(place);
  });

  it('contains nothing of a closed book, though the program runs on', async () => {
    const place = temporaryIn(dirname(tempBookPath()));
    const shop = await freshDesk();
    await shop.call('export.create', { what: 'text' });
    await uploadFile(shop, 'Name,Phone\nDana Whitlock,555-0142\n');
    expect(readdirSync(place).filter((name) => /^gambrel-(out|file)/.test(name))).toHaveLength(2);
    shop.desk.close();
    expect(readdirSync(place).filter((name) => /^gambrel-(out|file)/.test(name))).toEqual([]);
  });

  it('is searched for when the desk opens', async () => {
    const place = temporaryIn(dirname(tempBookPath()));
    const left = join(place, `gambrel-file-${spawnSync('true').pid}-aB3dE6`);
    mkdirSync(left);
    await guardedDesk(join(place, 'shop.gambrel'));
    expect(existsSync(left)).toBe(false);
  });
});
