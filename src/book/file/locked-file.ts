/**
 * An encrypted backup. The format, byte by byte:
 *
 *      0   8  `GMBLLOCK`
 *      8   1  version of this format: 1, or 2 with a label
 *      9   1  log2 of scrypt's N, then r, then p (1 byte each)
 *     12  16  salt of scrypt
 *     28   8  check of the key: HMAC-SHA-256 of `passphrase` under it, cut to 8 bytes
 *     36  12  nonce of AES-256-GCM, drawn anew for each file
 *     48   4  version 2 only: length of the label in bytes, big-endian
 *     52   …  version 2 only: the label (`BookLabel` as JSON), readable without the key, so that a folder of several
 *             books can be thinned book by book
 *      …   …  the book, encrypted
 *    end  16  tag of AES-256-GCM, over the book and everything before it
 *
 * scrypt: RFC 7914; AES-GCM: NIST SP 800-38D. N = 2^17, r = 8, p = 1 is the minimum of OWASP's Password Storage
 * Cheat Sheet (from memory). The key is stored in the book, which anyone at the computer can read anyway; it
 * protects the copy that leaves the shop. The passphrase itself is not stored.
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
import { closeSync, fstatSync, fsyncSync, openSync, readSync } from 'node:fs';
import { readLabel, type BookLabel } from './book-identity.ts';
import { writeFully } from './durable-files.ts';
import { PRIVATE } from './private-files.ts';
import { BookError } from './book-error.ts';

/** A key derived from a passphrase, and its salt; both in hexadecimal. */
export interface Lock {
  salt: string;
  key: string;
}

const MARK = Buffer.from('GMBLLOCK');
const PLAIN_VERSION = 1;
const LABELLED_VERSION = 2;
const COST = { log2N: 17, r: 8, p: 1 };
const HEADER = 48;
const LENGTH = 4;
const MAX_LABEL = 4096;
const TAG = 16;
const PIECE = 1 << 20;

/** Derives the key of a new passphrase; takes a third of a second and 128 MB by design. */
export function makeLock(passphrase: string): Lock {
  const salt = randomBytes(16);
  return lockOf(passphrase, salt.toString('hex'));
}

/** The lock of a passphrase whose salt is known: that of a locked file. */
export function lockOf(passphrase: string, salt: string): Lock {
  return { salt, key: derive(passphrase, Buffer.from(salt, 'hex')).toString('hex') };
}

/** Encrypts the file `plain` to `locked` in chunks, and flushes it. @param label stored unencrypted */
export function lockFile(plain: string, locked: string, lock: Lock, label: BookLabel | null = null): void {
  const key = Buffer.from(lock.key, 'hex');
  const nonce = randomBytes(12);
  const header = Buffer.concat([
    MARK,
    Buffer.from([label ? LABELLED_VERSION : PLAIN_VERSION, COST.log2N, COST.r, COST.p]),
    Buffer.from(lock.salt, 'hex'),
    checkOf(key),
    nonce,
    label ? labelBytes(label) : Buffer.alloc(0),
  ]);
  const cipher = createCipheriv('aes-256-gcm', key, nonce).setAAD(header);
  withFiles(plain, locked, (from, to) => {
    writeFully(to, header);
    pour(from, to, cipher, 0, fstatSync(from).size);
    writeFully(to, cipher.getAuthTag());
  });
}

/**
 * Decrypts `locked` to `plain`. `plain` is valid only after this returns.
 * @param opener the passphrase, or the lock that the file was made with
 * @throws BookError `passphrase` for a wrong one, `backup` when the file is truncated or modified
 */
export function unlockFile(locked: string, plain: string, opener: string | Lock): void {
  withFiles(locked, plain, (from, to) => {
    const { size } = fstatSync(from);
    const header = headerOf(from);
    if (!header || size < header.length + TAG) throw new BookError('backup', locked, 'no locked backup');
    const key = keyFor(header, opener);
    if (!key || !timingSafeEqual(checkOf(key), header.subarray(28, 36)))
      throw new BookError('passphrase', locked);
    const tag = Buffer.alloc(TAG);
    readSync(from, tag, 0, TAG, size - TAG);
    const decipher = createDecipheriv('aes-256-gcm', key, header.subarray(36, HEADER), {
      authTagLength: TAG,
    });
    decipher.setAAD(header).setAuthTag(tag);
    try {
      pour(from, to, decipher, header.length, size - TAG);
    } catch (error) {
      throw new BookError('backup', locked, String(error));
    }
  });
}

/** The unencrypted header of a locked file: its label, if any, and the salt of its lock. Null: not a locked file. */
export function readHeader(locked: string): { label: BookLabel | null; salt: string } | null {
  const file = openSync(locked, 'r');
  try {
    const header = headerOf(file);
    return (
      header && {
        label: readLabel(header.subarray(HEADER + LENGTH).toString()),
        salt: header.subarray(12, 28).toString('hex'),
      }
    );
  } finally {
    closeSync(file);
  }
}

function labelBytes(label: BookLabel): Buffer {
  const text = Buffer.from(JSON.stringify(label));
  const length = Buffer.alloc(LENGTH);
  length.writeUInt32BE(text.length);
  return Buffer.concat([length, text]);
}

/** The header before the encrypted book, or null if it is invalid. */
function headerOf(file: number): Buffer | null {
  const start = Buffer.alloc(HEADER + LENGTH);
  const read = readSync(file, start, 0, HEADER + LENGTH, 0);
  if (read < HEADER || !start.subarray(0, 8).equals(MARK)) return null;
  if (!start.subarray(9, 12).equals(Buffer.from([COST.log2N, COST.r, COST.p]))) return null;
  if (start[8] === PLAIN_VERSION) return start.subarray(0, HEADER);
  const length = start.readUInt32BE(HEADER);
  if (start[8] !== LABELLED_VERSION || length > MAX_LABEL) return null;
  const header = Buffer.alloc(HEADER + LENGTH + length);
  return readSync(file, header, 0, header.length, 0) < header.length ? null : header;
}

function keyFor(header: Buffer, opener: string | Lock): Buffer | null {
  const salt = header.subarray(12, 28);
  if (typeof opener === 'string') return derive(opener, salt);
  return opener.salt === salt.toString('hex') ? Buffer.from(opener.key, 'hex') : null;
}

/** Normalised, because keyboards may produce different code points for the same letters. */
function derive(passphrase: string, salt: Buffer): Buffer {
  const { log2N, r, p } = COST;
  return scryptSync(passphrase.normalize('NFKC'), salt, 32, { N: 2 ** log2N, r, p, maxmem: 256 * 2 ** 20 });
}

function checkOf(key: Buffer): Buffer {
  return createHmac('sha256', key).update('passphrase').digest().subarray(0, 8);
}

/** Streams the bytes `start` to `end` of `from` through the cipher to `to`; a wrong tag throws at the end. */
function pour(from: number, to: number, cipher: Cipheriv | Decipheriv, start: number, end: number): void {
  const piece = Buffer.alloc(PIECE);
  for (let at = start; at < end;) {
    const read = readSync(from, piece, 0, Math.min(PIECE, end - at), at);
    if (read === 0) break;
    writeFully(to, cipher.update(piece.subarray(0, read)));
    at += read;
  }
  writeFully(to, cipher.final());
}

function withFiles(source: string, target: string, work: (from: number, to: number) => void): void {
  const from = openSync(source, 'r');
  try {
    const to = openSync(target, 'w', PRIVATE);
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
