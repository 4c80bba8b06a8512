/** A file on its way out: written to a temporary place, and handed over in pieces that any carrier takes. */
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { writeWhole } from '../../book/file/durable-files.ts';
import type { Db } from '../../book/file/db.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import {
  adoptTemporary,
  dropTemporary,
  giveAwayTemporary,
  inTemporary,
  inTemporaryMeanwhile,
  temporaryFolder,
} from '../session/temporary.ts';
import { Chunks } from './chunks.ts';

const PIECE_BYTES = 500_000;

interface Parcel {
  id: number;
  path: string;
}

/** One at a time for each open book: the one packed last. */
const parcels = new WeakMap<DeskRoom, Parcel>();
/** Rooms in which something is being packed, here or by the worker thread. */
const packing = new WeakSet<DeskRoom>();
let last = 0;

/**
 * Begins to pack, which takes the disk and both threads for seconds: one at a time.
 * @returns a function that ends it
 * @throws Trouble `takeout.busy`
 */
function beginPacking(room: DeskRoom): () => void {
  if (packing.has(room)) throw new Trouble('refused', 'takeout.busy');
  packing.add(room);
  return () => void packing.delete(room);
}

/** For a file that the worker thread packs. */
export const longPacking = {
  begin(room: DeskRoom) {
    const end = beginPacking(room);
    return { done: end, failed: end };
  },
};

/**
 * Lets `write` make the file out of the book as it stands now; the desk goes on working meanwhile.
 * @throws Trouble `takeout.busy`; `temporary.full`, `temporary.folder`, and nothing is left of the file then
 */
export async function packParcel(
  room: DeskRoom,
  write: (path: string, db: Db) => void | Promise<void>,
): Promise<{ id: number; bytes: number }> {
  const end = beginPacking(room);
  let folder: string | null = null;
  try {
    dropParcel(room);
    folder = temporaryFolder('out', room);
    const path = join(folder, 'file');
    await room.book.read((db) => inTemporaryMeanwhile(async () => write(path, db)));
    dropParcel(room);
    const parcel = { id: ++last, path };
    parcels.set(room, parcel);
    return { id: parcel.id, bytes: statSync(path).size };
  } catch (error) {
    if (folder !== null) dropTemporary(folder);
    throw error;
  } finally {
    end();
  }
}

/** Lets go of what was packed for a room, for another thread to hand over. @returns its path, or null if there is none */
export function giveAwayParcel(room: DeskRoom): string | null {
  const parcel = parcels.get(room);
  if (!parcel) return null;
  parcels.delete(room);
  giveAwayTemporary(dirname(parcel.path));
  return parcel.path;
}

/** Takes over what another thread packed. @returns its id in this room */
export function adoptParcel(room: DeskRoom, path: string): number {
  dropParcel(room);
  adoptTemporary(dirname(path), room);
  const parcel = { id: ++last, path };
  parcels.set(room, parcel);
  return parcel.id;
}

/** A piece in base64; the last one takes the file away. @throws Trouble `takeout.gone` */
export function pieceOf(room: DeskRoom, id: number, from: number): { base64: string; last: boolean } {
  const parcel = parcels.get(room);
  if (!parcel || parcel.id !== id) throw new Trouble('missing', 'takeout.gone');
  return inTemporary(() => {
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
  });
}

/** Writes text without holding all of it. */
export async function writeText(path: string, text: Iterable<string>): Promise<void> {
  const file = openSync(path, 'w');
  try {
    await new Chunks().each(text, (bytes) => writeWhole(file, bytes));
  } finally {
    closeSync(file);
  }
}

function dropParcel(room: DeskRoom): void {
  const parcel = parcels.get(room);
  if (!parcel) return;
  dropTemporary(dirname(parcel.path));
  parcels.delete(room);
}
