import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lockFile, makeLock, unlockFile } from '../../../src/book/file/locked-file.ts';
import { tempBookPath } from '../temp-book.ts';
import { troubleOf } from './book-error-of.ts';

const lock = makeLock('three cold elk hooks');

function lockedFile(bytes: Buffer) {
  const plain = tempBookPath('plain');
  const locked = join(dirname(plain), 'locked');
  const back = join(dirname(plain), 'back');
  writeFileSync(plain, bytes);
  lockFile(plain, locked, lock);
  return { locked, back };
}

describe('an encrypted file', () => {
  it.each([0, 1, 1 << 20, 3_000_001])(
    'of %i bytes comes back as it was, by passphrase and by key',
    (size) => {
      const bytes = Buffer.alloc(size, 'Mule deer, 84.6 lb; ');
      const { locked, back } = lockedFile(bytes);
      for (const opener of ['three cold elk hooks', lock]) {
        unlockFile(locked, back, opener);
        expect(readFileSync(back).equals(bytes)).toBe(true);
      }
      expect(statSync(locked).size).toBe(size + 48 + 16);
      expect(readFileSync(locked).includes('Mule deer')).toBe(false);
    },
  );

  it('differs each time, though its contents are the same', () => {
    const bytes = Buffer.alloc(5000, 7);
    expect(readFileSync(lockedFile(bytes).locked).equals(readFileSync(lockedFile(bytes).locked))).toBe(false);
  });

  it('distinguishes a wrong passphrase from a modified file', () => {
    const { locked, back } = lockedFile(Buffer.alloc(9000, 1));
    expect(troubleOf(() => unlockFile(locked, back, 'three cold elk hook'))).toBe('passphrase');
    expect(troubleOf(() => unlockFile(locked, back, makeLock('another one')))).toBe('passphrase');
    const whole = readFileSync(locked);
    for (const place of [0, 9, 48, 5000, whole.length - 1]) {
      const bent = Buffer.from(whole);
      bent[place] = (bent[place] ?? 0) ^ 1;
      writeFileSync(locked, bent);
      expect(
        troubleOf(() => unlockFile(locked, back, lock)),
        `byte ${place}`,
      ).toBe('backup');
    }
    for (const length of [0, 40, 63, 64, whole.length - 1]) {
      writeFileSync(locked, whole.subarray(0, length));
      expect(
        troubleOf(() => unlockFile(locked, back, lock)),
        `${length} bytes`,
      ).toBe('backup');
    }
  });

  it('opens with the same passphrase typed on another keyboard', () => {
    const { locked, back } = lockedFile(Buffer.from('book'));
    const umlaut = makeLock('h\u00e4ngende Keule');
    lockFile(locked, `${locked} again`, umlaut);
    expect(troubleOf(() => unlockFile(`${locked} again`, back, 'ha\u0308ngende Keule'))).toBe('none');
  });
});
