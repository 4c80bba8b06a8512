/**
 * Writes a .zip archive entry by entry in a stream (PKWARE APPNOTE 6.3, UTF-8 names). Texts are deflated; photographs, which are
 * compressed already, are stored. Each file is below 4 GB; a larger or longer archive has the records of ZIP64 (4.3.14, 4.3.15,
 * 4.5.3).
 */
import { closeSync, openSync } from 'node:fs';
import { constants, crc32, deflateRawSync } from 'node:zlib';
import { writeFully } from '../../book/file/durable-files.ts';
import { Chunks } from './chunks.ts';

/** The lowest version with deflate, and the flag for UTF-8 names. */
const VERSION = 20;
/** The lowest version with ZIP64, the id of its extra field, and the values that say to look there. */
const VERSION_64 = 45;
const EXTRA_64 = 0x0001;
const IN_ZIP64 = 0xffffffff;
const MANY = 0xffff;
const UTF8 = 0x0800;
/** Methods of compression (4.4.5). */
const [STORED, DEFLATED] = [0, 8];
/** 1980-01-01: a fixed date, so that the same book gives the same archive. */
const DATE = 0x0021;

interface Entry {
  name: Buffer;
  method: number;
  crc: number;
  packed: number;
  bytes: number;
  at: number;
}

/** A text, or the bytes of a file: null if it is gone by then, and left out. */
export type ZipFile =
  | { name: string; text: Iterable<string> }
  | { name: string; bytes: () => Uint8Array | null };

/** Writes an archive to `path`. */
export async function writeZip(path: string, files: Iterable<ZipFile>): Promise<void> {
  const file = openSync(path, 'w');
  try {
    let at = 0;
    const chunks = new Chunks();
    const put = (bytes: Uint8Array): void => {
      writeFully(file, bytes, at);
      at += bytes.length;
    };
    const entries: Entry[] = [];
    for (const one of files) {
      const stored = 'bytes' in one;
      if (stored) await chunks.pause();
      const whole = stored ? one.bytes() : null;
      if (stored && whole === null) continue;
      const method = stored ? STORED : DEFLATED;
      const entry: Entry = { name: Buffer.from(one.name), method, crc: 0, packed: 0, bytes: 0, at };
      put(localHeader(entry));
      const start = at;
      const take = (bytes: Uint8Array, packed: Uint8Array): void => {
        entry.crc = crc32(bytes, entry.crc);
        entry.bytes += bytes.length;
        put(packed);
      };
      if (whole) take(whole, whole);
      else if ('text' in one)
        await chunks.each(one.text, (bytes, last) => {
          // Each chunk ends on a whole byte, so that the chunks together are one deflate stream.
          const finishFlush = last ? constants.Z_FINISH : constants.Z_SYNC_FLUSH;
          take(bytes, deflateRawSync(bytes, { finishFlush }));
        });
      entry.packed = at - start;
      // Sizes are known only now: the header is overwritten.
      writeFully(file, localHeader(entry), entry.at);
      entries.push(entry);
    }
    const start = at;
    for (const entry of entries) put(centralHeader(entry));
    put(end(entries.length, at - start, start));
  } finally {
    closeSync(file);
  }
}

function localHeader(entry: Entry): Buffer {
  const header = Buffer.alloc(30);
  header.writeUInt32LE(0x04034b50, 0);
  common(header, 4, entry);
  return Buffer.concat([header, entry.name]);
}

function centralHeader(entry: Entry): Buffer {
  const header = Buffer.alloc(46);
  const isFar = entry.at >= IN_ZIP64;
  header.writeUInt32LE(0x02014b50, 0);
  header.writeUInt16LE(isFar ? VERSION_64 : VERSION, 4);
  common(header, 6, entry);
  header.writeUInt32LE(isFar ? IN_ZIP64 : entry.at, 42);
  if (!isFar) return Buffer.concat([header, entry.name]);
  const extra = Buffer.alloc(12);
  extra.writeUInt16LE(EXTRA_64, 0);
  extra.writeUInt16LE(8, 2);
  extra.writeBigUInt64LE(BigInt(entry.at), 4);
  header.writeUInt16LE(extra.length, 30);
  return Buffer.concat([header, entry.name, extra]);
}

/** The fields that both headers share, from the required version on. */
function common(header: Buffer, from: number, { method, crc, packed, bytes, name }: Entry): void {
  [VERSION, UTF8, method, 0, DATE].forEach((value, i) => header.writeUInt16LE(value, from + i * 2));
  [crc, packed, bytes].forEach((value, i) => header.writeUInt32LE(value, from + 10 + i * 4));
  header.writeUInt16LE(name.length, from + 22);
}

function end(entries: number, bytes: number, at: number): Buffer {
  const record = Buffer.alloc(22);
  const isShort = entries < MANY && bytes < IN_ZIP64 && at < IN_ZIP64;
  record.writeUInt32LE(0x06054b50, 0);
  record.writeUInt16LE(Math.min(entries, MANY), 8);
  record.writeUInt16LE(Math.min(entries, MANY), 10);
  record.writeUInt32LE(Math.min(bytes, IN_ZIP64), 12);
  record.writeUInt32LE(Math.min(at, IN_ZIP64), 16);
  return isShort ? record : Buffer.concat([end64(entries, bytes, at), record]);
}

/** The end of a large archive, and the locator that leads to it. */
function end64(entries: number, bytes: number, at: number): Buffer {
  const record = Buffer.alloc(56 + 20);
  record.writeUInt32LE(0x06064b50, 0);
  record.writeBigUInt64LE(44n, 4); // of what follows
  record.writeUInt16LE(VERSION_64, 12);
  record.writeUInt16LE(VERSION_64, 14);
  record.writeBigUInt64LE(BigInt(entries), 24);
  record.writeBigUInt64LE(BigInt(entries), 32);
  record.writeBigUInt64LE(BigInt(bytes), 40);
  record.writeBigUInt64LE(BigInt(at), 48);
  record.writeUInt32LE(0x07064b50, 56);
  record.writeBigUInt64LE(BigInt(at + bytes), 64);
  record.writeUInt32LE(1, 72);
  return record;
}
