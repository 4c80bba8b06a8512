/** A file on its way into the book: it arrives in pieces that any carrier takes, and lies in a temporary place until it is used. */
import { appendFileSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Trouble } from '../problem.ts';
import type { DeskRoom } from '../room.ts';

interface Upload {
  id: number;
  name: string;
  path: string;
  bytes: number;
}

/** Largest piece in letters of base64: with its wrapping it stays below what the loopback server takes at once. */
export const MOST_PIECE = 700_000;
/** A table of 200,000 rows is about 30 MB, a whole book of 20 seasons as text some hundreds. */
export const MOST_TABLE_BYTES = 64_000_000;
export const MOST_BOOK_BYTES = 1_000_000_000;

/** One at a time for each open book: a second file takes the place of the first. */
const uploads = new WeakMap<DeskRoom, Upload>();
const folders = new Set<string>();
let last = 0;
process.once('exit', () => folders.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

export function beginUpload(room: DeskRoom, name: string): number {
  dropUpload(room);
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-file-'));
  folders.add(folder);
  const upload = { id: ++last, name, path: join(folder, 'file'), bytes: 0 };
  appendFileSync(upload.path, '');
  uploads.set(room, upload);
  return upload.id;
}

/** @throws Trouble `sheet.gone`, `sheet.torn` (a piece came twice or out of turn), `sheet.too-large` */
export function addPiece(room: DeskRoom, id: number, from: number, base64: string): number {
  const upload = uploadOf(room, id);
  if (from !== upload.bytes) throw new Trouble('conflict', 'sheet.torn');
  const piece = Buffer.from(base64, 'base64');
  if (upload.bytes + piece.length > MOST_BOOK_BYTES) throw new Trouble('refused', 'sheet.too-large');
  appendFileSync(upload.path, piece);
  upload.bytes += piece.length;
  return upload.bytes;
}

/** The whole of a table. @throws Trouble `sheet.gone`, `sheet.too-large` */
export function tableOf(room: DeskRoom, id: number): { name: string; bytes: Buffer; sha256: string } {
  const { name, path } = uploadOf(room, id);
  if (statSync(path).size > MOST_TABLE_BYTES) throw new Trouble('refused', 'sheet.too-large');
  const bytes = readFileSync(path);
  return { name, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** @throws Trouble `sheet.gone` */
export function uploadOf(room: DeskRoom, id: number): Upload {
  const upload = uploads.get(room);
  if (!upload || upload.id !== id) throw new Trouble('missing', 'sheet.gone');
  return upload;
}

/** Forgets the file: it was used, or another one comes. */
export function dropUpload(room: DeskRoom): void {
  const upload = uploads.get(room);
  if (!upload) return;
  const folder = join(upload.path, '..');
  rmSync(folder, { recursive: true, force: true });
  folders.delete(folder);
  uploads.delete(room);
}
