import type * as v from 'valibot';
import type { Source } from '../../book/file/books-aside.ts';
import type { Opening } from '../../book/file/restore.ts';
import type { BookError } from '../../book/file/book-error.ts';
import type { Session } from './session.ts';

/** One thing a shop can do: an input schema and a function of a valid input. */
export interface Procedure<
  S extends v.GenericSchema = v.GenericSchema,
  R = unknown,
  K extends 'read' | 'write' | 'host' = 'read' | 'write' | 'host',
> {
  kind: K;
  /** Answers for any opening of a book: this is how a window learns which one is open. */
  anyOpening?: boolean;
  /** Writes whatever the computer's clock shows. */
  anyClock?: boolean;
  input: S;
  long?: Long<S> | undefined;
  run: (session: Session, input: v.InferOutput<S>) => R;
}

/** When a call would block others: the worker thread then runs it, on the same book. */
export interface Long<S extends v.GenericSchema = v.GenericSchema> {
  when: (session: Session, input: v.InferOutput<S>) => boolean;
  /** Does not write to the book, whatever its kind: others can write meanwhile. */
  onlyReads?: boolean;
  /** Sets up state in this session that the worker cannot; the returned object receives the result or the error. */
  begin?: (session: Session) => { done(value: unknown): void; failed(error: unknown): void };
}

type Run<S extends v.GenericSchema, R> = (session: Session, input: v.InferOutput<S>) => R;

/** A query. May be asynchronous (a solver); changes nothing. */
export function read<S extends v.GenericSchema, R>(
  input: S,
  run: Run<S, R>,
  anyOpening = false,
  long?: Long<S>,
): Procedure<S, R, 'read'> {
  return { kind: 'read', anyOpening, long, input, run };
}

/** A change of the book: runs in one immediate transaction, so it must be synchronous, and announces the change. */
export function write<S extends v.GenericSchema, R>(
  input: S,
  run: Run<S, R extends Promise<unknown> ? never : R>,
  { anyClock = false, long }: { anyClock?: boolean; long?: Long<S> } = {},
): Procedure<S, R, 'write'> {
  return { kind: 'write', anyClock, long, input, run: run as Run<S, R> };
}

/**
 * An operation on the whole book, or one that needs a solver before it writes; it opens its own transaction with
 * `session.book.change` if it writes, and announces the change.
 */
export function host<S extends v.GenericSchema, R>(
  input: S,
  run: Run<S, R>,
  long?: Long<S>,
): Procedure<S, R, 'host'> {
  return { kind: 'host', long, input, run };
}

/** Which book is open: the shop's, the demo's, or none while the shop's does not open. */
export interface Door {
  /** The open book, or null while there is an error. */
  readonly session: Session | null;
  readonly trouble: BookError | null;
  readonly bookPath: string;
  readonly now: () => Date;
  /** The script of the ledger's threads. */
  readonly ledgerProgram: URL;
  /** Receives errors raised outside a request. */
  readonly onBroken: (error: unknown) => void;
  /** Opens the shop's book if none is open; `asItIs` accepts a file that changed since its last close. */
  open(asItIs?: boolean): void;
  /** Retries after a failed start; `asItIs` accepts a file that changed since its last close. */
  tryAgain(asItIs: boolean): Promise<void>;
  openDemo(): Promise<Session>;
  leaveDemo(): Promise<Session>;
  /**
   * Replaces the book with a backup and opens it. On failure everything is restored.
   * @param firstLook the first query of a window on an opened book
   * @returns the path of the replaced book, or null if there was none
   * @throws BookError
   */
  restore(source: Source, opening: Opening, firstLook: (session: Session) => unknown): string | null;
  /** After an error of the open book's file: closes and reopens it. */
  recover(trouble: BookError): void;
  /** Starts a new, empty book; the file that does not open is kept beside it. */
  beginAnew(): void;
}

/** Operates on the door instead of the book, so it works while the book does not open. */
interface DoorProcedure<S extends v.GenericSchema = v.GenericSchema, R = unknown> {
  kind: 'door';
  input: S;
  /** Changes nothing that other windows show. */
  quiet: boolean;
  /** Evaluated only while a book is open. */
  long?: Long<S> | undefined;
  run: (door: Door, input: v.InferOutput<S>) => R;
}

export type AnyProcedure = Procedure | DoorProcedure;

/** Opens, replaces or inspects the book from outside. */
export function door<S extends v.GenericSchema, R>(
  input: S,
  run: (door: Door, input: v.InferOutput<S>) => R,
  quiet = false,
  long?: Long<S>,
): DoorProcedure<S, R> {
  return { kind: 'door', input, quiet, long, run };
}
