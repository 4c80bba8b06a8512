import type * as v from 'valibot';
import type { Source } from '../../book/file/books-aside.ts';
import type { Opening } from '../../book/file/restore.ts';
import type { BookError } from '../../book/file/book-error.ts';
import type { Session } from './session.ts';

/** One thing a shop can do: an input schema and what is done with a valid input. */
export interface Procedure<
  S extends v.GenericSchema = v.GenericSchema,
  R = unknown,
  K extends 'read' | 'write' | 'host' = 'read' | 'write' | 'host',
> {
  kind: K;
  /** Answers whichever opening of a book the caller means: it is how a window learns which one is open. */
  anyOpening?: boolean;
  /** Writes whatever the computer's clock shows. */
  anyClock?: boolean;
  input: S;
  long?: Long<S> | undefined;
  run: (session: Session, input: v.InferOutput<S>) => R;
}

/** When a call would keep others waiting: it is then carried out by the worker thread, over the same book. */
export interface Long<S extends v.GenericSchema = v.GenericSchema> {
  when: (session: Session, input: v.InferOutput<S>) => boolean;
  /** It writes nothing into the book, whatever its kind is: others write on meanwhile. */
  onlyReads?: boolean;
  /** Begins here what the worker cannot tell this room; what it returns is called with the answer or the error. */
  begin?: (session: Session) => { done(value: unknown): void; failed(error: unknown): void };
}

type Run<S extends v.GenericSchema, R> = (session: Session, input: v.InferOutput<S>) => R;

/** Answers a question. May be asynchronous (a solver); changes nothing. */
export function read<S extends v.GenericSchema, R>(
  input: S,
  run: Run<S, R>,
  anyOpening = false,
  long?: Long<S>,
): Procedure<S, R, 'read'> {
  return { kind: 'read', anyOpening, long, input, run };
}

/** Changes the book: runs in one immediate transaction, so it must be synchronous, and announces the change. */
export function write<S extends v.GenericSchema, R>(
  input: S,
  run: Run<S, R extends Promise<unknown> ? never : R>,
  { anyClock = false, long }: { anyClock?: boolean; long?: Long<S> } = {},
): Procedure<S, R, 'write'> {
  return { kind: 'write', anyClock, long, input, run: run as Run<S, R> };
}

/**
 * Does something with the book as a whole, or needs a solver before it writes; opens its own transaction with
 * `room.book.change` if it writes, and announces the change.
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
  /** The open book, or null while there is trouble. */
  readonly session: Session | null;
  readonly trouble: BookError | null;
  readonly bookPath: string;
  readonly now: () => Date;
  /** Opens the shop's book if none is open; `asItIs` takes a file that is not as it was left. */
  open(asItIs?: boolean): void;
  /** Tries what did not open at the start once more; `asItIs` takes a file that is not as it was left. */
  tryAgain(asItIs: boolean): Promise<void>;
  openDemo(): Promise<Session>;
  leaveDemo(): Promise<Session>;
  /**
   * Puts a backup in the book's place and opens it. If it does not open, everything is as it was before.
   * @param firstLook what a window does first with a book that was opened
   * @returns where the replaced book lies, or null if there was none
   * @throws BookError
   */
  restore(source: Source, opening: Opening, firstLook: (session: Session) => unknown): string | null;
  /** The open book's file gave trouble: lets go of it and tries it afresh. */
  recover(trouble: BookError): void;
  /** Begins a new, empty book; the file that does not open is kept beside it. */
  beginAnew(): void;
}

/** Works on the door rather than in the book, so it answers also while the book does not open. */
interface DoorProcedure<S extends v.GenericSchema = v.GenericSchema, R = unknown> {
  kind: 'door';
  input: S;
  /** Changes nothing that another window shows. */
  quiet: boolean;
  /** Asked only while a book is open. */
  long?: Long<S> | undefined;
  run: (door: Door, input: v.InferOutput<S>) => R;
}

export type AnyProcedure = Procedure | DoorProcedure;

/** Opens, exchanges or looks at the book from outside. */
export function door<S extends v.GenericSchema, R>(
  input: S,
  run: (door: Door, input: v.InferOutput<S>) => R,
  quiet = false,
  long?: Long<S>,
): DoorProcedure<S, R> {
  return { kind: 'door', input, quiet, long, run };
}
