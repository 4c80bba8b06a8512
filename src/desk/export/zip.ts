/** Writes a .zip archive entry by entry in a stream (PKWARE APPNOTE 6.3, deflate, UTF-8 names, below 4 GB). */
import { closeSync, openSync } from 'node:fs';
import { constants, crc32, deflateRawSync } from 'node:zlib';
import { writeFully } from '../../book/file/durable-files.ts';
import { Chunks } from './chunks.ts';

/** The lowest version with deflate, and the flag for UTF-8 names. */
const VERSION = 20;
const UTF8 = 0x0800;
const DEFLATED = 8;
/** 1980-01-01: a fixed date, so that the same book gives the same archive. */
const DATE = 0x0021;

interface Entry {
  name: Buffer;
  crc: number;
  packed: number;
  bytes: number;
  at: number;
}

/** Writes an archive of texts to `path`. */
export async function writeZip(
  path: string,
  files: Iterable<{ name: string; text: Iterable<string> }>,
): Promise<void> {
  const file = openSync(path, 'w');
  try {
    let at = 0;
    const chunks = new Chunks();
    const put = (bytes: Buffer): void => {
      writeFully(file, bytes, at);
      at += bytes.length;
    };
    const entries: Entry[] = [];
    for (const { name, text } of files) {
      const entry: Entry = { name: Buffer.from(name), crc: 0, packed: 0, bytes: 0, at };
      put(localHeader(entry));
      const start = at;
      await chunks.each(text, (bytes, last) => {
        entry.crc = crc32(bytes, entry.crc);
        entry.bytes += bytes.length;
        // Each chunk ends on a whole byte, so that the chunks together are one deflate stream.
        put(deflateRawSync(bytes, { finishFlush: last ? constants.Z_FINISH : constants.Z_SYNC_FLUSH }));
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
  header.writeUInt32LE(0x02014b50, 0);
  header.writeUInt16LE(VERSION, 4);
  common(header, 6, entry);
  header.writeUInt32LE(entry.at, 42);
  return Buffer.concat([header, entry.name]);
}

/** The fields that both headers share, from the required version on. */
function common(header: Buffer, from: number, { crc, packed, bytes, name }: Entry): void {
  [VERSION, UTF8, DEFLATED, 0, DATE].forEach((value, i) => header.writeUInt16LE(value, from + i * 2));
  [crc, packed, bytes].forEach((value, i) => header.writeUInt32LE(value, from + 10 + i * 4));
  header.writeUInt16LE(name.length, from + 22);
}

function end(entries: number, bytes: number, at: number): Buffer {
  const record = Buffer.alloc(22);
  record.writeUInt32LE(0x06054b50, 0);
  record.writeUInt16LE(entries, 8);
  record.writeUInt16LE(entries, 10);
  record.writeUInt32LE(bytes, 12);
  record.writeUInt32LE(at, 16);
  return record;
}
