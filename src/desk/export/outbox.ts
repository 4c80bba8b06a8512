/** Exported files: each is written to a temporary folder and sent in chunks that any carrier accepts. */
import { closeSync, openSync, readSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { writeFully } from '../../book/file/durable-files.ts';
import type { Db } from '../../book/file/db.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import {
  adoptTemporary,
  removeTemporary,
  releaseTemporary,
  withTemporary,
  withTemporaryAsync,
  temporaryFolder,
} from '../session/temporary.ts';
import { Chunks } from './chunks.ts';

const PIECE_BYTES = 500_000;

interface ExportFile {
  id: number;
  path: string;
}

/** One per open book: the last export. */
const files = new WeakMap<Session, ExportFile>();
/** Sessions with an export in progress, here or in the worker thread. */
const busy = new WeakSet<Session>();
let last = 0;

/**
 * Starts an export, which uses the disk and both threads for seconds: one at a time.
 * @returns a function that ends it
 * @throws ProblemError `export.busy`
 */
function beginExport(session: Session): () => void {
  if (busy.has(session)) throw new ProblemError('refused', 'export.busy');
  busy.add(session);
  return () => void busy.delete(session);
}

/** For an export that the worker thread makes. */
export const longExport = {
  begin(session: Session) {
    const end = beginExport(session);
    return { done: end, failed: end };
  },
};

/**
 * Lets `write` make the file from a snapshot of the book; the desk continues meanwhile.
 * @throws ProblemError `export.busy`; `temporary.full`, `temporary.folder`, and then no partial file is left
 */
export async function writeExport(
  session: Session,
  write: (path: string, db: Db) => void | Promise<void>,
): Promise<{ id: number; bytes: number }> {
  const end = beginExport(session);
  let folder: string | null = null;
  try {
    removeExport(session);
    folder = temporaryFolder('out', session);
    const path = join(folder, 'file');
    await session.book.read((db) => withTemporaryAsync(async () => write(path, db)));
    removeExport(session);
    const parcel = { id: ++last, path };
    files.set(session, parcel);
    return { id: parcel.id, bytes: statSync(path).size };
  } catch (error) {
    if (folder !== null) removeTemporary(folder);
    throw error;
  } finally {
    end();
  }
}

/** Hands over a session's export to another thread. @returns its path, or null if there is none */
export function releaseExport(session: Session): string | null {
  const parcel = files.get(session);
  if (!parcel) return null;
  files.delete(session);
  releaseTemporary(dirname(parcel.path));
  return parcel.path;
}

/** Takes over another thread's export. @returns its id in this session */
export function adoptExport(session: Session, path: string): number {
  removeExport(session);
  adoptTemporary(dirname(path), session);
  const parcel = { id: ++last, path };
  files.set(session, parcel);
  return parcel.id;
}

/** A chunk in base64; the last one deletes the file. @throws ProblemError `export.gone` */
export function pieceOf(session: Session, id: number, from: number): { base64: string; last: boolean } {
  const parcel = files.get(session);
  if (!parcel || parcel.id !== id) throw new ProblemError('missing', 'export.gone');
  return withTemporary(() => {
    const file = openSync(parcel.path, 'r');
    try {
      const piece = Buffer.alloc(PIECE_BYTES);
      const bytes = readSync(file, piece, 0, PIECE_BYTES, from);
      const ended = from + bytes >= statSync(parcel.path).size;
      if (ended) removeExport(session);
      return { base64: piece.subarray(0, bytes).toString('base64'), last: ended };
    } finally {
      closeSync(file);
    }
  });
}

/** Writes text in a stream. */
export async function writeText(path: string, text: Iterable<string>): Promise<void> {
  const file = openSync(path, 'w');
  try {
    await new Chunks().each(text, (bytes) => writeFully(file, bytes));
  } finally {
    closeSync(file);
  }
}

function removeExport(session: Session): void {
  const parcel = files.get(session);
  if (!parcel) return;
  removeTemporary(dirname(parcel.path));
  files.delete(session);
}
