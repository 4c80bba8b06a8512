/**
 * A backup that only its passphrase opens. The format, byte by byte:
 *
 *      0   8  `GMBLLOCK`
 *      8   1  version of this format: 1
 *      9   1  log2 of scrypt's N, then r, then p (1 byte each)
 *     12  16  salt of scrypt
 *     28   8  check of the key: HMAC-SHA-256 of `passphrase` under it, cut to 8 bytes
 *     36  12  nonce of AES-256-GCM, drawn anew for each file
 *     48   …  the book, encrypted
 *    end  16  tag of AES-256-GCM, over the book and these first 48 bytes
 *
 * scrypt: RFC 7914; AES-GCM: NIST SP 800-38D. N = 2^17, r = 8, p = 1 is what OWASP's Password Storage Cheat Sheet
 * asks for at the least (from memory). The key is kept in the book, which whoever sits at the computer can read
 * anyway; what it guards is the copy that leaves the shop. Nobody keeps the passphrase itself.
 */
import {
  createCipheriv,
  createDecipheriv,
  createHmac,
  randomBytes,
  scryptSync,
  timingSafeEqual,
  type Cipheriv,
  type Decipheriv,
} from 'node:crypto';
import { closeSync, fstatSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs';
import { BookTrouble } from './trouble.ts';

/** A key made from a passphrase, and the salt that it was made with; both in hexadecimal. */
export interface Lock {
  salt: string;
  key: string;
}

const MARK = Buffer.from('GMBLLOCK');
const VERSION = 1;
const COST = { log2N: 17, r: 8, p: 1 };
const HEADER = 48;
const TAG = 16;
const PIECE = 1 << 20;

/** Makes the key for a new passphrase; takes a third of a second and 128 MB, on purpose. */
export function makeLock(passphrase: string): Lock {
  const salt = randomBytes(16);
  return { salt: salt.toString('hex'), key: derive(passphrase, salt).toString('hex') };
}

/** Writes the file `plain` encrypted to `locked`, piece by piece, and flushes it. */
export function lockFile(plain: string, locked: string, lock: Lock): void {
  const key = Buffer.from(lock.key, 'hex');
  const nonce = randomBytes(12);
  const header = Buffer.concat([
    MARK,
    Buffer.from([VERSION, COST.log2N, COST.r, COST.p]),
    Buffer.from(lock.salt, 'hex'),
    checkOf(key),
    nonce,
  ]);
  const cipher = createCipheriv('aes-256-gcm', key, nonce).setAAD(header);
  withFiles(plain, locked, (from, to) => {
    writeSync(to, header);
    pour(from, to, cipher, 0, fstatSync(from).size);
    writeSync(to, cipher.getAuthTag());
  });
}

/**
 * Writes what is in `locked` to `plain`. Only once this returned is `plain` what was locked.
 * @param opener the passphrase, or the lock that the file was made with
 * @throws BookTrouble `passphrase` when it is another one, `backup` when the file is cut short or was changed
 */
export function unlockFile(locked: string, plain: string, opener: string | Lock): void {
  withFiles(locked, plain, (from, to) => {
    const { size } = fstatSync(from);
    const header = Buffer.alloc(HEADER);
    if (size < HEADER + TAG || readSync(from, header, 0, HEADER, 0) < HEADER || !isHeader(header))
      throw new BookTrouble('backup', locked, 'no locked backup');
    const key = keyFor(header, opener);
    if (!key || !timingSafeEqual(checkOf(key), header.subarray(28, 36)))
      throw new BookTrouble('passphrase', locked);
    const tag = Buffer.alloc(TAG);
    readSync(from, tag, 0, TAG, size - TAG);
    const decipher = createDecipheriv('aes-256-gcm', key, header.subarray(36, HEADER), {
      authTagLength: TAG,
    });
    decipher.setAAD(header).setAuthTag(tag);
    try {
      pour(from, to, decipher, HEADER, size - TAG);
    } catch (error) {
      throw new BookTrouble('backup', locked, String(error));
    }
  });
}

function isHeader(header: Buffer): boolean {
  return (
    header.subarray(0, 8).equals(MARK) &&
    header.subarray(8, 12).equals(Buffer.from([VERSION, COST.log2N, COST.r, COST.p]))
  );
}

function keyFor(header: Buffer, opener: string | Lock): Buffer | null {
  const salt = header.subarray(12, 28);
  if (typeof opener === 'string') return derive(opener, salt);
  return opener.salt === salt.toString('hex') ? Buffer.from(opener.key, 'hex') : null;
}

/** The same letters typed on another keyboard may be other code points, hence the normal form. */
function derive(passphrase: string, salt: Buffer): Buffer {
  const { log2N, r, p } = COST;
  return scryptSync(passphrase.normalize('NFKC'), salt, 32, { N: 2 ** log2N, r, p, maxmem: 256 * 2 ** 20 });
}

function checkOf(key: Buffer): Buffer {
  return createHmac('sha256', key).update('passphrase').digest().subarray(0, 8);
}

/** Sends the bytes `start` up to `end` of `from` through the cipher to `to`; a wrong tag throws at the end. */
function pour(from: number, to: number, cipher: Cipheriv | Decipheriv, start: number, end: number): void {
  const piece = Buffer.alloc(PIECE);
  for (let at = start; at < end;) {
    const read = readSync(from, piece, 0, Math.min(PIECE, end - at), at);
    if (read === 0) break;
    writeAll(to, cipher.update(piece.subarray(0, read)));
    at += read;
  }
  writeAll(to, cipher.final());
}

/** A disk that is almost full takes a part of what it is given before it refuses. */
function writeAll(to: number, bytes: Buffer): void {
  for (let at = 0; at < bytes.length;) at += writeSync(to, bytes, at);
}

function withFiles(source: string, target: string, work: (from: number, to: number) => void): void {
  const from = openSync(source, 'r');
  try {
    const to = openSync(target, 'w');
    try {
      work(from, to);
      fsyncSync(to);
    } finally {
      closeSync(to);
    }
  } finally {
    closeSync(from);
  }
}
