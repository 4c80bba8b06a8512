/** A file on its way out: written to a temporary place, and handed over in pieces that any carrier takes. */
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { writeWhole } from '../../book/file/durable-files.ts';
import type { Db } from '../../book/file/db.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
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
const parcels = new WeakMap<Session, Parcel>();
/** Rooms in which something is being packed, here or by the worker thread. */
const packing = new WeakSet<Session>();
let last = 0;

/**
 * Begins to pack, which takes the disk and both threads for seconds: one at a time.
 * @returns a function that ends it
 * @throws ProblemError `export.busy`
 */
function beginPacking(session: Session): () => void {
  if (packing.has(session)) throw new ProblemError('refused', 'export.busy');
  packing.add(session);
  return () => void packing.delete(session);
}

/** For a file that the worker thread packs. */
export const longPacking = {
  begin(session: Session) {
    const end = beginPacking(session);
    return { done: end, failed: end };
  },
};

/**
 * Lets `write` make the file out of the book as it stands now; the desk goes on working meanwhile.
 * @throws ProblemError `export.busy`; `temporary.full`, `temporary.folder`, and nothing is left of the file then
 */
export async function packParcel(
  session: Session,
  write: (path: string, db: Db) => void | Promise<void>,
): Promise<{ id: number; bytes: number }> {
  const end = beginPacking(session);
  let folder: string | null = null;
  try {
    dropParcel(session);
    folder = temporaryFolder('out', session);
    const path = join(folder, 'file');
    await session.book.read((db) => inTemporaryMeanwhile(async () => write(path, db)));
    dropParcel(session);
    const parcel = { id: ++last, path };
    parcels.set(session, parcel);
    return { id: parcel.id, bytes: statSync(path).size };
  } catch (error) {
    if (folder !== null) dropTemporary(folder);
    throw error;
  } finally {
    end();
  }
}

/** Lets go of what was packed for a room, for another thread to hand over. @returns its path, or null if there is none */
export function giveAwayParcel(session: Session): string | null {
  const parcel = parcels.get(session);
  if (!parcel) return null;
  parcels.delete(session);
  giveAwayTemporary(dirname(parcel.path));
  return parcel.path;
}

/** Takes over what another thread packed. @returns its id in this room */
export function adoptParcel(session: Session, path: string): number {
  dropParcel(session);
  adoptTemporary(dirname(path), session);
  const parcel = { id: ++last, path };
  parcels.set(session, parcel);
  return parcel.id;
}

/** A piece in base64; the last one takes the file away. @throws ProblemError `export.gone` */
export function pieceOf(session: Session, id: number, from: number): { base64: string; last: boolean } {
  const parcel = parcels.get(session);
  if (!parcel || parcel.id !== id) throw new ProblemError('missing', 'export.gone');
  return inTemporary(() => {
    const file = openSync(parcel.path, 'r');
    try {
      const piece = Buffer.alloc(PIECE_BYTES);
      const bytes = readSync(file, piece, 0, PIECE_BYTES, from);
      const ended = from + bytes >= statSync(parcel.path).size;
      if (ended) dropParcel(session);
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

function dropParcel(session: Session): void {
  const parcel = parcels.get(session);
  if (!parcel) return;
  dropTemporary(dirname(parcel.path));
  parcels.delete(session);
}
