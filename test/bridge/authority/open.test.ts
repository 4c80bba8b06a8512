/** The file that keeps the authority, and when its certificates are made anew. */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { X509Certificate } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { keptPath } from '../../../src/bridge/authority/kept.ts';
import { openAuthority } from '../../../src/bridge/authority/open.ts';

const DAY = 86_400_000;
const start = new Date('2026-09-01T08:00:00Z');
const after = (days: number) => new Date(start.getTime() + days * DAY);
const HOME = { host: 'desk.local', addresses: ['192.168.1.5', 'fd00::5'] };

let book: string;
beforeEach(() => {
  book = join(mkdtempSync(join(tmpdir(), 'gambrel-authority-')), 'shop.gambrel');
  writeFileSync(book, '');
});
const numberOf = ({ cert }: { cert: string }) => new X509Certificate(cert).serialNumber;

it('is the same after a restart, with the same leaf', async () => {
  const first = await openAuthority(book, 'Oak Ridge', start);
  const leaf = await first.leafFor(HOME, start);
  const second = await openAuthority(book, 'Another name', after(1));
  expect([first.isNew, second.isNew]).toEqual([true, false]);
  expect(second.fingerprints).toEqual(first.fingerprints);
  expect(await second.leafFor({ ...HOME, addresses: HOME.addresses.toReversed() }, after(1))).toEqual(leaf);
});

it.skipIf(process.platform === 'win32')('is readable by its owner only, whatever was there', async () => {
  writeFileSync(`${keptPath(book)}.part`, 'left by a crash', { mode: 0o644 });
  await (await openAuthority(book, '', start)).leafFor(HOME, start);
  expect(statSync(keptPath(book)).mode & 0o777).toBe(0o600);
  expect(existsSync(`${keptPath(book)}.part`)).toBe(false);
});

describe('a new authority is made', () => {
  let before: string;
  beforeEach(async () => {
    const made = await openAuthority(book, '', start);
    await made.leafFor(HOME, start);
    before = made.fingerprints.sha256;
  });

  it('for a book that was moved with the file', async () => {
    const folder = `${book} elsewhere`;
    mkdirSync(folder);
    const moved = join(folder, 'shop.gambrel');
    renameSync(book, moved);
    renameSync(keptPath(book), keptPath(moved));
    const { isNew, fingerprints } = await openAuthority(moved, '', start);
    expect(isNew).toBe(true);
    expect(fingerprints.sha256).not.toBe(before);
  });

  it('for a copy, and the original keeps its own', async () => {
    const copy = book.replace('shop', 'copy');
    copyFileSync(book, copy);
    copyFileSync(keptPath(book), keptPath(copy));
    expect((await openAuthority(copy, '', start)).isNew).toBe(true);
    expect((await openAuthority(book, '', start)).fingerprints.sha256).toBe(before);
  });

  it('in the last month of the old one', async () => {
    expect((await openAuthority(book, '', after(3_652 - 32))).isNew).toBe(false);
    expect((await openAuthority(book, '', after(3_652 - 30))).isNew).toBe(true);
  });
});

describe('the leaf is made anew', () => {
  it('when a third of its life is left', async () => {
    const authority = await openAuthority(book, '', start);
    const first = numberOf(await authority.leafFor(HOME, start));
    expect(numberOf(await authority.leafFor(HOME, after(263)))).toBe(first);
    expect(numberOf(await authority.leafFor(HOME, after(264)))).not.toBe(first);
  });

  it('when the clock was set back behind its start', async () => {
    const authority = await openAuthority(book, '', start);
    const first = numberOf(await authority.leafFor(HOME, start));
    expect(numberOf(await authority.leafFor(HOME, after(-2)))).not.toBe(first);
  });

  it('when the address changed', async () => {
    const authority = await openAuthority(book, '', start);
    await authority.leafFor(HOME, start);
    const { cert } = await authority.leafFor({ host: 'desk.local', addresses: ['192.168.1.9'] }, start);
    expect(new X509Certificate(cert).subjectAltName).toBe('DNS:desk.local, IP Address:192.168.1.9');
    const reopened = await openAuthority(book, '', start);
    expect((await reopened.leafFor({ host: 'desk.local', addresses: ['192.168.1.9'] }, start)).cert).toBe(
      cert,
    );
  });
});

it.each(['', '{', 'null', '{"version":2}', '{"version":1,"place":"x"}'])(
  'a damaged file %j is reported, not replaced',
  async (text) => {
    writeFileSync(keptPath(book), text);
    await expect(openAuthority(book, '', start)).rejects.toMatchObject({
      problem: { kind: 'broken', code: 'line.keys-damaged', with: { path: keptPath(book) } },
    });
    expect(readFileSync(keptPath(book), 'utf8')).toBe(text);
  },
);
