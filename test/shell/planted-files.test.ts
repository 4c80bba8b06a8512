/**
 * Other programs may have created the shell's note and log files: the shell neither blocks on them nor writes through
 * links.
 */
import { execFileSync } from 'node:child_process';
import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { logEvent, openLog } from '../../electron/log.ts';
import { readNote, writeNote } from '../../electron/note-file.ts';
import { readRecent } from '../../electron/recent-books.ts';
import { readWindowPlace } from '../../electron/window-place.ts';
import { replaceFile } from '../../src/book/file/partial-files.ts';

let folder = '';
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'gambrel-planted-'))));
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const diary = () => {
  const path = join(folder, 'diary.txt');
  writeFileSync(path, 'mine');
  return path;
};

describe('a note', () => {
  it.each<[string, (file: string) => void]>([
    ['a folder', (file) => mkdirSync(file)],
    ['a pipe', (file) => void execFileSync('mkfifo', [file])],
    ['a device', (file) => symlinkSync('/dev/zero', file)],
    ['a file without an end', (file) => (writeFileSync(file, '"'), truncateSync(file, 2 ** 33))],
    ['no JSON', (file) => writeFileSync(file, '{"width":')],
    ['a number', (file) => writeFileSync(file, '7')],
    ['a list of nothing', (file) => writeFileSync(file, '[null, 3, {}, {"path": 9}]')],
  ])('that is %s is ignored and blocks nothing', (_, make) => {
    const file = join(folder, 'note.json');
    make(file);
    expect(readRecent(file)).toEqual([]);
    expect(readWindowPlace(file, [])).toMatchObject({ width: 1366 });
  });

  it('is not written through a link, and replaces it', () => {
    const file = join(folder, 'note.json');
    symlinkSync(diary(), file);
    writeNote(file, { folder: '/here' });
    expect(readFileSync(join(folder, 'diary.txt'), 'utf8')).toBe('mine');
    expect(lstatSync(file).isFile()).toBe(true);
    expect(readNote(file)).toEqual({ folder: '/here' });
    expect(lstatSync(file).mode & 0o077).toBe(0);
  });

  it('removes leftovers of an earlier write, and nothing else', () => {
    const file = join(folder, 'note.json');
    const left = ['note.json.part', 'other.json.part', 'note.json.parts'];
    for (const name of left) {
      writeFileSync(join(folder, name), '');
      utimesSync(join(folder, name), 0, 0);
    }
    writeFileSync(join(folder, 'note.json.0a0b0c0d-1-00000000.part'), '');
    writeNote(file, {});
    expect(readdirSync(folder).sort()).toEqual([
      'note.json',
      'note.json.0a0b0c0d-1-00000000.part',
      'note.json.parts',
      'other.json.part',
    ]);
  });
});

describe('the log', () => {
  it.each<[string, (file: string) => void]>([
    ['a link', (file) => symlinkSync(diary(), file)],
    ['a link to nowhere', (file) => symlinkSync(join(folder, 'planted'), file)],
    ['a pipe', (file) => void execFileSync('mkfifo', [file])],
    ['a folder', (file) => mkdirSync(file)],
  ])('rotates %s and writes to a file of its own', (_, make) => {
    const file = join(folder, 'gambrel.log');
    make(file);
    openLog(() => folder);
    logEvent('started');
    expect(lstatSync(file).isFile()).toBe(true);
    expect(readFileSync(file, 'utf8')).toMatch(/Z started\n$/);
    expect(readdirSync(folder)).not.toContain('planted');
    if (readdirSync(folder).includes('diary.txt'))
      expect(readFileSync(join(folder, 'diary.txt'), 'utf8')).toBe('mine');
  });
});

it('a saved file replaces a link and leaves its target unchanged', () => {
  const path = join(folder, 'season.pdf');
  symlinkSync(diary(), path);
  replaceFile(path, 'a page');
  expect(readFileSync(path, 'utf8')).toBe('a page');
  expect(readFileSync(join(folder, 'diary.txt'), 'utf8')).toBe('mine');
  expect(readdirSync(folder).sort()).toEqual(['diary.txt', 'season.pdf']);
});
