/** Messages between the desk and its worker thread. Only plain values cross; errors are serialized by kind. */
import Database from 'better-sqlite3';
import { BookError } from '../../book/file/book-error.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import type { ActorSeed } from '../session/actor.ts';
import type { Upload } from '../session/upload.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';

/** One call with the context of the desk that sends it: the worker opens the book itself. */
export interface WorkerRequest {
  id: number;
  call: string;
  /** After validation. */
  input: unknown;
  book: { path: string; demo: boolean };
  /** UTC moment; the worker has no clock of its own. */
  now: string;
  upload: Upload | null;
  /** Who writes at a station; null at the desk itself. */
  actor: ActorSeed | null;
}

export interface WorkerResponse {
  id: number;
  answer: { ok: true; value: unknown; parcel: string | null } | { ok: false; thrown: SerializedError };
}

type SerializedError =
  | { kind: 'trouble'; problem: Problem }
  | { kind: 'core'; code: string; field: string | undefined; with: ValidationError['with'] }
  | { kind: 'book'; code: BookError['code']; path: string; detail: string }
  | { kind: 'sqlite'; code: string; message: string }
  | { kind: 'other'; message: string };

export function serializeError(error: unknown): SerializedError {
  if (error instanceof ProblemError) return { kind: 'trouble', problem: error.problem };
  if (error instanceof ValidationError)
    return { kind: 'core', code: error.code, field: error.field, with: { ...error.with } };
  if (error instanceof BookError)
    return { kind: 'book', code: error.code, path: error.path, detail: error.detail };
  if (error instanceof Database.SqliteError)
    return { kind: 'sqlite', code: error.code, message: error.message };
  return { kind: 'other', message: error instanceof Error ? (error.stack ?? error.message) : String(error) };
}

/** Recreates a serialized error, of the same class. */
export function deserializeError(thrown: SerializedError): Error {
  switch (thrown.kind) {
    case 'trouble': {
      const { kind, code, ...more } = thrown.problem;
      return new ProblemError(kind, code, more);
    }
    case 'core':
      return new ValidationError(thrown.code, thrown.field, { ...thrown.with });
    case 'book':
      return new BookError(thrown.code, thrown.path, thrown.detail);
    case 'sqlite':
      return new Database.SqliteError(thrown.message, thrown.code);
    case 'other':
      return new Error(thrown.message);
  }
}
