/**
 * A book made again from a ledger, for a computer that was lost: in a file beside the book, checked as a backup, and taken in as one.
 * One at a time; whether a book is open does not matter. Only the shop's own window makes these calls.
 */
import * as v from 'valibot';
import { createPartial, partialPath, removePartial } from '../../book/file/partial-files.ts';
import { booksIn } from '../../ledger/rebuild/books.ts';
import { startRebuild, type Rebuilt, type RebuildThread } from '../../ledger/rebuild/thread.ts';
import { checkReadable } from '../../ledger/server/check.ts';
import { connect } from '../../ledger/server/connect.ts';
import { LedgerError, type LedgerCode } from '../../ledger/server/ledger-error.ts';
import type { Server } from '../../ledger/server/server.ts';
import { bookErrorIn, problemOfBookError } from '../contract/book-problems.ts';
import type { Restored } from '../contract/backup.ts';
import type { LedgerBooks, LedgerRebuild } from '../contract/ledger.ts';
import { ProblemError } from '../contract/problem.ts';
import { withBookProblems } from '../files/backups.ts';
import { by, id } from '../input/input.ts';
import { door, type Door } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { shopView } from '../shop/shop.ts';
import { keepPassword } from './password.ts';
import { ledgerAddress, ledgerSettings, putLedger, refusePlain, serverPassword } from './settings.ts';

const access = { ...ledgerAddress.entries, password: serverPassword };
type Access = v.InferOutput<v.ObjectSchema<typeof access, undefined>>;

interface Rebuild {
  access: Access;
  /** The file that is made. */
  path: string;
  thread: RebuildThread;
  state: LedgerRebuild;
  rebuilt: Rebuilt | null;
}
const rebuilds = new WeakMap<Door, Rebuild>();

/** The books that a ledger has. Nothing is written, and neither address nor password is kept. */
export const books = door(
  v.object(access),
  async (_at, { password, ...address }): Promise<LedgerBooks> => {
    refusePlain(address);
    let server: Server | undefined;
    try {
      server = await connect(address, password);
      await checkReadable(server);
      const found = await booksIn(server);
      return {
        wrong: found.length === 0 ? 'empty' : null,
        books: found.map(({ shop, name, branch, sentAt, animals, superseded }) => ({
          shop, name, branch, sentAt, animals, superseded,
        })),
      }; // prettier-ignore
    } catch (error) {
      if (error instanceof LedgerError) return { wrong: forReader(error.code), books: [] };
      throw error;
    } finally {
      await server?.end().catch(() => undefined); // the answer is known already
    }
  },
  true,
);

/**
 * Begins to make a book, in place of one that is being made. `rebuilding` tells what becomes of it.
 * @throws ProblemError `backup.demo` (refused)
 */
export const rebuild = door(
  v.object({ ...access, shop: id }),
  (at, { shop, ...to }) => {
    refuseInDemo(at);
    refusePlain(to);
    endRebuild(at);
    withBookProblems(() => begin(at, shop, to), 'book');
    return {};
  },
  true,
);

export const rebuilding = door(
  v.object({}),
  (at): LedgerRebuild => rebuilds.get(at)?.state ?? { kind: 'none' },
  true,
);

/** Ends it and removes what was made. */
export const cancelRebuild = door(
  v.object({}),
  (at) => {
    endRebuild(at);
    return {};
  },
  true,
);

/**
 * Takes the book that was made in place of the open one, which is kept beside it. It is fed as a new branch: the lost computer, should
 * it turn up, then says that another took its place.
 * @throws ProblemError `backup.gone` (missing) when there is none; those of restoring a backup
 */
export const openRebuilt = door(v.object({ by }), async (at, input): Promise<Restored> => {
  refuseInDemo(at);
  const made = rebuilds.get(at);
  if (!made?.rebuilt) throw new ProblemError('missing', 'backup.gone');
  const { rebuilt } = made;
  const setAside = withBookProblems(() => at.restore({ path: made.path, locked: false }, {}, shopView));
  endRebuild(at);
  if (at.session) await goOnAsBranch(at.session, rebuilt.branch.newest + 1, made.access, input.by);
  return { setAside, repaired: [] };
});

/** Ends the rebuild of a desk, if there is one, and removes what it made. */
export function endRebuild(at: Door): void {
  const running = rebuilds.get(at);
  if (!running) return;
  rebuilds.delete(at);
  const ended = running.thread.stop();
  // A thread's open file cannot be removed on Windows; elsewhere the program may be about to end.
  tryRemove(running.path);
  void ended.then(() => tryRemove(running.path), at.onBroken);
}

function begin(at: Door, shop: number, to: Access): void {
  const path = partialPath(at.bookPath);
  createPartial(path);
  const { password, ...address } = to;
  const thread = startRebuild(
    at.ledgerProgram,
    { address, password, shop, path, now: at.now().toISOString() },
    ({ rows, of }) => {
      running.state = rows < of ? { kind: 'reading', rows, of } : { kind: 'checking' };
    },
  );
  const running: Rebuild = {
    access: to, path, thread, state: { kind: 'reading', rows: 0, of: 0 }, rebuilt: null,
  }; // prettier-ignore
  rebuilds.set(at, running);
  thread.made.then(
    (rebuilt) => {
      running.rebuilt = rebuilt;
      running.state = { kind: 'made', contents: contentsOf(rebuilt) };
    },
    (error: unknown) => {
      running.state = failureOf(error, at);
      tryRemove(path);
    },
  );
}

function contentsOf({ contents, branch }: Rebuilt) {
  const { shop, animals, weighings, payments, lastEntry } = contents;
  const { personal, whole } = branch;
  return { shop, animals, weighings, payments, lastEntry, personal, whole };
}

function failureOf(error: unknown, at: Door): LedgerRebuild {
  if (error instanceof LedgerError) return { kind: 'failed', why: forReader(error.code) };
  const trouble = bookErrorIn(error, at.bookPath);
  if (trouble) return { kind: 'unwritten', problem: problemOfBookError(trouble) };
  at.onBroken(error);
  return { kind: 'failed', why: 'broken' };
}

/** Whoever only reads can prepare nothing: for them an unprepared database is an empty one. */
const forReader = (code: LedgerCode): LedgerCode => (code === 'not-prepared' ? 'empty' : code);

async function goOnAsBranch(session: Session, branch: number, to: Access, initials: string): Promise<void> {
  const { book } = session;
  const settings = ledgerSettings(book);
  const { password, ...address } = to;
  // By another login, such as the owner's, it is not fed: the Shop then asks for the shop's own password.
  const isOwnLogin = settings?.user === address.user;
  book.change(() => {
    if (!settings?.on) return book.feed.end();
    const next = { ...settings, ...(isOwnLogin ? address : {}), branch, since: session.now() };
    putLedger(session, next, initials);
    book.feed.begin();
  });
  if (settings?.on && isOwnLogin) await keepPassword(session, password);
}

function refuseInDemo({ session }: Door): void {
  if (session?.demo) throw new ProblemError('refused', 'backup.demo');
}

/** What cannot be removed now is removed at the next start. */
function tryRemove(path: string): void {
  try {
    removePartial(path);
  } catch {
    // still open, on Windows
  }
}
