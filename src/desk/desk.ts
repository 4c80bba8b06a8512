import * as v from 'valibot';
import type { BookError } from '../book/file/book-error.ts';
import { actAs } from '../book/changes/acting.ts';
import type { SharedLesson } from '../ledger/feed/lessons.ts';
import type { Topic } from '../book/changes/topics.ts';
import type { Place } from '../trade/place.ts';
import { bookErrorIn } from './contract/book-problems.ts';
import { problemForFloor } from './floor/problem.ts';
import { refuseWrongClock } from './session/clock.ts';
import { BookDoor, type DemoBook } from './door.ts';
import { wakeFeed } from './ledger/feeding.ts';
import { endRebuild } from './ledger/rebuild.ts';
import { answerSaid, inputMeant } from './names/at-the-door.ts';
import { ProblemError, type Answer, type Problem } from './contract/problem.ts';
import { pendingUpload } from './session/upload.ts';
import { problemOf, problemOfInput } from './session/problem-of.ts';
import type { AnyProcedure } from './session/procedure.ts';
import { isForOneBook, mayWrite, procedureOf, writesLong } from './listed.ts';
import type { Session } from './session/session.ts';
import { staleAfter, type Stale } from './reads.ts';
import { actorOf, seedOf, type ActorSeed } from './session/actor.ts';
import type { Vault } from './session/vault.ts';
import { clearLeftovers } from './session/temporary.ts';
import { adoptExport } from './export/outbox.ts';
import { startUpkeep, type UpkeepTimes } from './upkeep.ts';
import { WorkerQueue, WorkerLost } from './worker/queue.ts';
import { SOURCE_LANGUAGE, type Language } from '../words/languages.ts';

/** What a change outdates, and the current opening of the book; null while none is open. */
export interface DeskChanged {
  /** The call that wrote; null for another program or unknown. */
  call: string | null;
  /** Queries to repeat; null for all. */
  stale: Stale | null;
  opening: string | null;
}

export interface Desk {
  /**
   * Carries out one call. Never rejects: failures are in the answer.
   * @param opening the opening of the book that the call is meant for; null from a window that knows none yet. Only
   *   this process itself omits it, and means whichever book is open.
   * @param language in which built-in things are named, in the input and in the answer
   */
  call(name: string, input: unknown, opening?: string | null, language?: Language): Promise<Answer<unknown>>;
  /** The same for a station: refused unless its place may make the call, and answered with what the place may see. */
  callFrom(
    caller: Caller,
    name: string,
    input: unknown,
    opening: string | null,
    language?: Language,
  ): Promise<Answer<unknown>>;
  /** The open book; null while none is open. */
  session(): Session | null;
  /** Runs `work`, which writes, as a call of that name runs: alone, with the clock checked, and announced afterwards. */
  write<T>(name: string, work: (session: Session) => T): Promise<Answer<T>>;
  /** Reports an internal error. */
  broken(error: unknown): void;
  /** Tells the windows to repeat a query whose answer is not of the book alone. */
  announce(call: string, asks: Stale['asks']): void;
  /** Registers a listener for changes and returns the function that removes it. */
  onChanged(listener: (changed: DeskChanged) => void): () => void;
  /** Why the book is not open; the windows then offer the remedies. */
  trouble(): BookError | null;
  /** Closes the book, leaving one complete file; unless `backUp: false`, a changed book is backed up first. */
  close(how?: { backUp?: boolean }): void;
}

/** A station that calls, and who is at work there. */
export interface Caller {
  place: Place;
  actor?: Omit<ActorSeed, 'call'>;
}

interface DeskOptions {
  bookPath: string;
  /** The book was named on the command line: a missing one is not created until a window asks for it. */
  named?: boolean;
  /** Starts in the demo season; the book at `bookPath` is not touched until the demo is left. */
  demo?: boolean;
  /** The demo for `demo` and for the window's call. */
  demoBook?: DemoBook;
  clock?: () => Date;
  /** Receives internal errors, for a log. */
  onBroken?: (error: unknown) => void;
  /** Periodic backups, the seal on closing, and checks for other programs' writes; none of them if absent. */
  upkeep?: UpkeepTimes;
  /** The worker thread's script, if it is not `worker.ts` itself. */
  worker?: URL;
  /** The script of the ledger's threads, if it is not `worker.ts` of the ledger itself. */
  ledgerProgram?: URL;
  /** The system's key store, for the ledger's password; without it that lies in a file for this account only. */
  vault?: Vault;
}

/** Ids of one book refer to other records in another: nothing is done, and the window loads the open one. */
const OTHER_OPENING: Problem = { kind: 'conflict', code: 'book.other-opening' };

/** Serves every call of the shop's windows on one book. While a book does not open, each answer reports it. */
export async function openDesk(options: DeskOptions): Promise<Desk> {
  const listeners = new Set<(changed: DeskChanged) => void>();
  const announce = (call: string | null, stale: Stale | null) =>
    listeners.forEach((listener) => listener({ call, stale, opening: door.session?.opening ?? null }));
  const onBroken = options.onBroken ?? (() => undefined);
  const door = new BookDoor({
    bookPath: options.bookPath,
    named: options.named,
    clock: options.clock ?? (() => new Date()),
    guarded: options.upkeep !== undefined,
    demoBook: options.demoBook,
    ledgerProgram: options.ledgerProgram ?? new URL('../ledger/worker.ts', import.meta.url),
    vault: options.vault,
    onBroken,
  });
  clearLeftovers();
  const worker = new WorkerQueue(options.worker);
  if (options.demo) await door.startInDemo();
  else door.open();
  const stopUpkeep = options.upkeep
    ? startUpkeep(
        door,
        options.upkeep,
        {
          announce,
          backUp,
          isWriting: () => longWrites > 0,
          announceLedger: () =>
            announce('ledger.get', { asks: ['ledger.get'], ofAnimals: { asks: [], ids: [] } }),
          teaching: {
            async lesson() {
              const answer = await call('ledger.lesson', {});
              return answer.ok ? (answer.value as SharedLesson | null) : null;
            },
            async write(work) {
              await write('ledger.lesson', work);
            },
          },
        },
        onBroken,
      )
    : () => undefined;

  async function callFrom(
    caller: Caller,
    name: string,
    input: unknown,
    opening: string | null,
    language?: Language,
  ): Promise<Answer<unknown>> {
    const procedure = procedureOf(name);
    if (procedure && !procedure.places.includes(caller.place)) return refusedAt(caller.place);
    const acting = door.session && caller.actor && actorOf(door.session, { ...caller.actor, call: name });
    const answer = await (acting
      ? actAs(acting, () => call(name, input, opening, language))
      : call(name, input, opening, language));
    if (caller.place === 'office') return answer;
    if (!answer.ok) return { ok: false as const, problem: problemForFloor(answer.problem) };
    const forFloor = procedure?.forFloor as ((value: unknown) => unknown) | undefined;
    return forFloor ? { ok: true as const, value: forFloor(answer.value) } : answer;
  }

  async function call(
    name: string,
    input: unknown,
    opening?: string | null,
    language: Language = SOURCE_LANGUAGE,
  ): Promise<Answer<unknown>> {
    return answerSaid(name, await callInEnglish(name, inputMeant(name, input, language), opening), language);
  }

  /** As `call`, with the English names of built-in things. */
  async function callInEnglish(
    name: string,
    input: unknown,
    opening?: string | null,
  ): Promise<Answer<unknown>> {
    const procedure = procedureOf(name);
    if (!procedure) return { ok: false, problem: { kind: 'missing', code: 'call.unknown' } };
    const { session } = door;
    if (session && opening !== undefined && opening !== session.opening && isForOneBook(procedure))
      return { ok: false, problem: OTHER_OPENING };
    const checked = v.safeParse(procedure.input, input ?? {}, { abortPipeEarly: true });
    if (!checked.success) return { ok: false, problem: problemOfInput(checked.issues[0]) };
    try {
      while (longWrites > 0 && mayWrite(procedure)) await written;
      if (session !== door.session && isForOneBook(procedure)) return { ok: false, problem: OTHER_OPENING };
      const before = session?.book.changes.mark() ?? 0;
      const value = await carryOut(name, procedure, checked.output);
      if (door.session && mayWrite(procedure)) wakeFeed(door.session);
      if (mayWrite(procedure))
        announce(name, session && session === door.session ? staleSince(session, before, name) : null);
      return { ok: true, value };
    } catch (error) {
      return { ok: false, problem: refusal(error, session) };
    }
  }

  async function write<T>(name: string, work: (session: Session) => T): Promise<Answer<T>> {
    const { session } = door;
    try {
      while (longWrites > 0) await written;
      if (session !== door.session) return { ok: false, problem: OTHER_OPENING };
      const open = openRoom();
      if (open.othersWrote()) announce(null, null);
      refuseWrongClock(open);
      const before = open.book.changes.mark();
      const value = work(open);
      wakeFeed(open);
      announce(name, staleSince(open, before, name));
      return { ok: true, value };
    } catch (error) {
      return { ok: false, problem: refusal(error, session) };
    }
  }

  /** Pending writes in the worker thread, and the end of the last: only one connection can write. */
  let longWrites = 0;
  let written: Promise<unknown> = Promise.resolve();

  function carryOut(name: string, procedure: AnyProcedure, input: unknown): unknown {
    if (procedure.kind === 'door')
      return door.session && isLong(procedure, door.session, input)
        ? inWorker(door.session, name, procedure, input)
        : procedure.run(door, input);
    const session = openRoom();
    if (session.othersWrote()) announce(null, null);
    const long = isLong(procedure, session, input);
    // The worker does not check the clock again.
    if (procedure.kind === 'write' ? !procedure.anyClock : long && writesLong(procedure))
      refuseWrongClock(session);
    return long ? inWorker(session, name, procedure, input) : here(procedure, session, input);
  }

  function isLong(procedure: AnyProcedure, session: Session, input: unknown): boolean {
    return worker.usable && procedure.long?.when(session, input) === true;
  }

  function here(procedure: AnyProcedure, session: Session, input: unknown): unknown {
    if (procedure.kind === 'door') return procedure.run(door, input);
    return procedure.kind === 'write'
      ? session.book.change(() => procedure.run(session, input))
      : procedure.run(session, input);
  }

  async function inWorker(session: Session, name: string, procedure: AnyProcedure, input: unknown) {
    session.book.checkPlace();
    const begun = procedure.long?.begin?.(session);
    const answer = worker.send(session, {
      call: name,
      input,
      upload: pendingUpload(session),
      actor: seedOf(name),
    });
    if (writesLong(procedure)) {
      longWrites += 1;
      written = answer.then(
        () => (longWrites -= 1),
        () => (longWrites -= 1),
      );
    }
    try {
      const { value, parcel } = await answer;
      // The worker wrote over another connection, like another program.
      if (door.session === session) session.othersWrote();
      begun?.done(value);
      return parcel === null ? value : { ...(value as object), id: adoptExport(session, parcel) };
    } catch (error) {
      begun?.failed(error);
      if (error instanceof WorkerLost && !worker.usable) return here(procedure, session, input);
      throw error;
    }
  }

  /** A failed backup is announced to the windows as well: the Shop shows the reason. */
  async function backUp(): Promise<void> {
    const answer = await call('shop.backUp', {});
    if (!answer.ok) announce('shop.backUp', null);
  }

  function openRoom(): Session {
    if (door.session) return door.session;
    // Without a book there is an error, unless the desk was closed.
    throw door.trouble ?? door.noDemo ?? new ProblemError('broken', 'desk.failed');
  }

  function refusal(error: unknown, began: Session | null): Problem {
    // The book was closed during a waiting call (a solver), which can no longer write.
    if (began && began !== door.session && !(error instanceof ProblemError)) return OTHER_OPENING;
    const trouble = door.session && bookErrorIn(error, door.session.book.path);
    if (trouble && ['missing', 'changed', 'drive', 'damaged', 'foreign', 'altered'].includes(trouble.code)) {
      door.recover(trouble);
      announce(null, null);
    }
    return problemOf(error, options.bookPath, onBroken);
  }

  return {
    call,
    callFrom,
    session: () => door.session,
    write,
    broken: onBroken,
    announce: (name, asks) => announce(name, { asks, ofAnimals: { asks: [], ids: [] } }),
    onChanged(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    trouble: () => door.trouble,
    close(how) {
      stopUpkeep();
      endRebuild(door);
      worker.end();
      door.close(how);
    },
  };
}

function refusedAt(place: Place): Answer<never> {
  return { ok: false, problem: { kind: 'refused', code: 'station.place', with: { place } } };
}

/** What a call may change beside the book, by the beginning of its name: files, or who asks to become a station. */
const BESIDE: ReadonlyMap<string, readonly Topic[]> = new Map([
  ['shop', ['files']],
  ['ledger', ['files']],
  ['stations', ['station']],
]);

function staleSince(session: Session, mark: number, call: string): Stale | null {
  return staleAfter(session.book.changes.since(mark), BESIDE.get(call.split('.')[0] ?? '') ?? []);
}
