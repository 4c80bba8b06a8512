/** A file on its way out: written to a temporary place, and handed over in pieces that any carrier takes. */
import { closeSync, mkdtempSync, openSync, readSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Trouble } from '../problem.ts';
import type { DeskRoom } from '../room.ts';
import { eachChunk } from './chunks.ts';

const PIECE_BYTES = 500_000;

interface Parcel {
  id: number;
  path: string;
}

/** One at a time for each open book. */
const parcels = new WeakMap<DeskRoom, Parcel>();
const folders = new Set<string>();
let last = 0;
process.once('exit', () => folders.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

/** Lets `write` make the file. */
export function packParcel(room: DeskRoom, write: (path: string) => void): { id: number; bytes: number } {
  dropParcel(room);
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-out-'));
  folders.add(folder);
  const parcel = { id: ++last, path: join(folder, 'file') };
  parcels.set(room, parcel);
  write(parcel.path);
  return { id: parcel.id, bytes: statSync(parcel.path).size };
}

/** A piece in base64; the last one takes the file away. @throws Trouble `takeout.gone` */
export function pieceOf(room: DeskRoom, id: number, from: number): { base64: string; last: boolean } {
  const parcel = parcels.get(room);
  if (!parcel || parcel.id !== id) throw new Trouble('missing', 'takeout.gone');
  const file = openSync(parcel.path, 'r');
  try {
    const piece = Buffer.alloc(PIECE_BYTES);
    const bytes = readSync(file, piece, 0, PIECE_BYTES, from);
    const ended = from + bytes >= statSync(parcel.path).size;
    if (ended) dropParcel(room);
    return { base64: piece.subarray(0, bytes).toString('base64'), last: ended };
  } finally {
    closeSync(file);
  }
}

/** Writes text without holding all of it. */
export function writeText(path: string, text: Iterable<string>): void {
  const file = openSync(path, 'w');
  try {
    eachChunk(text, (bytes) => void writeSync(file, bytes));
  } finally {
    closeSync(file);
  }
}

function dropParcel(room: DeskRoom): void {
  const parcel = parcels.get(room);
  if (!parcel) return;
  const folder = join(parcel.path, '..');
  rmSync(folder, { recursive: true, force: true });
  folders.delete(folder);
  parcels.delete(room);
}
