/** Uploads: a file arrives in chunks that any carrier accepts and stays in a temporary folder until it is used. */
import {
  closeSync,
  existsSync,
  ftruncateSync,
  openSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createHash } from 'node:crypto';
import { dirname, join } from 'node:path';
import { writeFully } from '../../book/file/durable-files.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from './session.ts';
import { removeTemporary, withTemporary, temporaryFolder } from './temporary.ts';

export interface Upload {
  id: number;
  name: string;
  path: string;
  bytes: number;
}

/** Largest chunk in base64 characters: with its envelope it is below the loopback server's limit. */
export const MAX_PIECE = 700_000;
/** A table of 200,000 rows is about 30 MB, a whole book of 20 seasons as text some hundred. */
const MAX_TABLE_BYTES = 64_000_000;
/** About 800 rows, which are imported within a tenth of a second. */
const LONG_BYTES = 64_000;
export const MAX_BOOK_BYTES = 1_000_000_000;

/** One per open book: a second file replaces the first. */
const uploads = new WeakMap<Session, Upload>();
let last = 0;

/** @throws ProblemError `temporary.full`, `temporary.folder` */
export function beginUpload(session: Session, name: string): number {
  dropUpload(session);
  const path = join(temporaryFolder('file', session), 'file');
  withTemporary(() => writeFileSync(path, ''));
  const upload = { id: ++last, name, path, bytes: 0 };
  uploads.set(session, upload);
  return upload.id;
}

/**
 * Appends a chunk. A failed chunk leaves the file unchanged, and may be sent again.
 * @throws ProblemError `sheet.gone`, `sheet.torn` (a chunk repeated or out of order), `sheet.too-large`,
 *   `temporary.full`, `temporary.folder`
 */
export function appendPiece(session: Session, id: number, from: number, base64: string): number {
  const upload = uploadOf(session, id);
  if (from !== upload.bytes) throw new ProblemError('conflict', 'sheet.torn');
  const piece = Buffer.from(base64, 'base64');
  if (upload.bytes + piece.length > MAX_BOOK_BYTES) throw new ProblemError('refused', 'sheet.too-large');
  withTemporary(() => addTo(upload, piece));
  upload.bytes += piece.length;
  return upload.bytes;
}

function addTo({ path, bytes }: Upload, piece: Buffer): void {
  const file = openSync(path, 'r+');
  try {
    writeFully(file, piece, bytes);
  } catch (error) {
    ftruncateSync(file, bytes);
    throw error;
  } finally {
    closeSync(file);
  }
}

/** The complete table. @throws ProblemError `sheet.gone`, `sheet.too-large` */
export function tableOf(session: Session, id: number): { name: string; bytes: Buffer; sha256: string } {
  const { name, path } = uploadOf(session, id);
  const bytes = withTemporary(() => {
    if (statSync(path).size > MAX_TABLE_BYTES) throw new ProblemError('refused', 'sheet.too-large');
    return readFileSync(path);
  });
  return { name, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
}

/** Takes over a file uploaded in another thread's session, which still owns its folder. */
export function adoptUpload(session: Session, upload: Upload): void {
  uploads.set(session, upload);
}

/** Processing a long file would block other calls. */
export const longUpload = {
  when: (session: Session, input: { upload: number }): boolean => {
    const upload = uploads.get(session);
    return upload?.id === input.upload && upload.bytes > LONG_BYTES;
  },
  /** A file that the worker consumed is gone for this session, too. */
  begin: (session: Session) => ({
    done(): void {
      const upload = uploads.get(session);
      if (upload && !existsSync(upload.path)) dropUpload(session);
    },
    failed: () => undefined,
  }),
};

/** The uploaded file, if any. */
export function pendingUpload(session: Session): Upload | null {
  return uploads.get(session) ?? null;
}

/** @throws ProblemError `sheet.gone` */
export function uploadOf(session: Session, id: number): Upload {
  const upload = uploads.get(session);
  if (!upload || upload.id !== id) throw new ProblemError('missing', 'sheet.gone');
  return upload;
}

/** Deletes the file: it was used, or another one replaces it. */
export function dropUpload(session: Session): void {
  const upload = uploads.get(session);
  if (!upload) return;
  removeTemporary(dirname(upload.path));
  uploads.delete(session);
}
