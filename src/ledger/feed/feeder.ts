/**
 * Feeds a book to a ledger: everything up to the end of the log, then whatever is logged, until it is stopped. It never writes to
 * the book, and holds no read transaction while it waits for the line.
 */
import { backlogOf, type Backlog, type FeedPlace } from '../../book/feed/feed.ts';
import { isFed } from '../../book/feed/feed-schema.ts';
import type { Db } from '../../book/file/db.ts';
import { openFile } from '../../book/file/open-file.ts';
import { BOOK_VERSION } from '../../book/migrations/index.ts';
import { checkServer } from '../server/check.ts';
import { LedgerError, ledgerErrorOf, type LedgerCode } from '../server/ledger-error.ts';
import { serverTables } from '../server/prepared.ts';
import type { Server } from '../server/server.ts';
import { ledgerTables } from '../tables/ledger-tables.ts';
import { batchReader, USUAL_SIZE, type Batch, type BatchSize } from './batch.ts';
import type { Gate } from './gate.ts';
import { exchangeLessons, type SharedLesson } from './lessons.ts';
import { sendBatch } from './send.ts';
import type { Privacy } from './shown-columns.ts';
import { beginBranch, branchAt, mayGoOn, type BranchName } from './standing.ts';
import type { ServerTables } from './statements.ts';

export interface FeederOptions {
  bookPath: string;
  branch: BranchName;
  /** The shop's name, as the owner reads it. */
  name: string;
  privacy: Privacy;
  connect: () => Promise<Server>;
  gate?: Gate;
  size?: BatchSize;
  pace?: Pace;
  onState: (state: FeedState) => void;
  /** Receives what other shops learned, after `exchange`. */
  onLessons?: (lessons: SharedLesson[]) => void;
  /** Receives errors that have no word of ours. */
  onBroken: (error: unknown) => void;
}

/** Times in ms. */
export interface Pace {
  /** How often it looks for changes that nobody woke it for. */
  look: number;
  /** The first pause after a failure; each further one is twice as long, up to `longest`. */
  again: number;
  longest: number;
}
export const USUAL_PACE: Pace = { look: 2_000, again: 1_000, longest: 60_000 };

export type FeedState =
  | { kind: 'connecting' }
  | { kind: 'sending'; sent: FeedPlace; backlog: Backlog }
  /** Everything is in the ledger. */
  | { kind: 'even'; sent: FeedPlace; at: string }
  /** It tries again by itself. */
  | { kind: 'waiting'; why: LedgerCode | 'broken' }
  /** Somebody has to decide. */
  | { kind: 'stopped'; why: LedgerCode; detail: string };

export interface Feeder {
  /** Looks for changes now. */
  wake(): void;
  /** Once everything is sent: tells what this shop learned, if anything, and asks for what others did. */
  exchange(mine: SharedLesson | null): void;
  /** Ends it; the book is closed when this returns. */
  stop(): void;
  /** Resolves when it has ended, also by itself. */
  ended: Promise<void>;
}

/** A server that is away, restarting or full comes back by itself; anything else needs somebody. */
const TRIED_AGAIN: readonly LedgerCode[] = ['unreachable', 'full'];

export function startFeeder(options: FeederOptions): Feeder {
  const pace = options.pace ?? USUAL_PACE;
  let stopping = false;
  let wake = (): void => undefined;
  let book: OpenBook | null = null;
  let server: Server | null = null;
  let telling: { mine: SharedLesson | null } | null = null;

  const closeBook = (): void => {
    book?.close();
    book = null;
  };
  const pause = (ms: number): Promise<void> =>
    new Promise((resolve) => {
      const timer = setTimeout(resolve, ms);
      wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
  const endServer = async (): Promise<void> => {
    const ending = server;
    server = null;
    await ending?.end().catch(() => undefined); // the line may be gone already
  };

  /** One connection, until it breaks or the feeder is stopped. */
  async function feed(onSent: () => void): Promise<void> {
    options.onState({ kind: 'connecting' });
    server = await options.connect();
    await checkServer(server);
    const tables = await serverTables(server);
    if (stopping) return;
    book = openBook(options);
    if (!book) return;
    let at = await standing(server, book, options);
    while (!stopping && book) {
      const batch = book.next(at.place);
      if (batch) {
        const sender = {
          shop: at.shop,
          name: options.name,
          bookVersion: BOOK_VERSION,
          personal: options.privacy.personal,
        };
        at = await sent(server, book, batch, sender, tables, at);
        onSent();
        if (!batch.whole && book)
          options.onState({ kind: 'sending', sent: at.place, backlog: backlogOf(book.db, at.place.seq) });
        continue;
      }
      options.onState({ kind: 'even', sent: at.place, at: new Date().toISOString() });
      if (telling) {
        const asked: typeof telling = telling;
        options.onLessons?.(await exchangeLessons(server, at.shop, asked.mine));
        if (telling === asked) telling = null;
        continue;
      }
      await pause(pace.look);
    }
  }

  async function sent(
    to: Server,
    from: OpenBook,
    batch: Batch,
    sender: Parameters<typeof sendBatch>[2],
    tables: ServerTables,
    at: Standing,
  ): Promise<Standing> {
    try {
      await sendBatch(to, batch, sender, tables);
      return { ...at, place: batch.to };
    } catch (error) {
      if (!(error instanceof LedgerError) || error.code !== 'fork') throw error;
      // Somebody else wrote. If it was this book's history, only an answer was lost.
      return standing(to, from, options);
    }
  }

  async function run(): Promise<void> {
    let wait = pace.again;
    while (!stopping) {
      try {
        await feed(() => (wait = pace.again));
      } catch (thrown) {
        if (stopping) break;
        const error = ledgerErrorOf(thrown);
        if (error instanceof LedgerError && !TRIED_AGAIN.includes(error.code)) {
          options.onState({ kind: 'stopped', why: error.code, detail: error.detail });
          break;
        }
        if (!(error instanceof LedgerError)) options.onBroken(error);
        options.onState({ kind: 'waiting', why: error instanceof LedgerError ? error.code : 'broken' });
      } finally {
        closeBook();
        await endServer();
      }
      if (stopping) break;
      await pause(wait);
      wait = Math.min(wait * 2, pace.longest);
    }
  }

  return {
    wake: () => wake(),
    exchange(mine) {
      telling = { mine };
      wake();
    },
    stop() {
      stopping = true;
      closeBook();
      wake();
    },
    ended: run(),
  };
}

interface OpenBook {
  db: Db;
  next(from: FeedPlace): Batch | null;
  close(): void;
}

/** @returns null when the desk is closing the book, or nothing is logged any more */
function openBook({ bookPath, gate, privacy, size = USUAL_SIZE }: FeederOptions): OpenBook | null {
  if (gate && !gate.enter()) return null;
  let db: Db | undefined;
  try {
    const opened = openFile(bookPath, { readonly: true, fileMustExist: true });
    db = opened;
    if (!isFed(opened)) throw new LedgerError('no-book', 'the book is not fed');
    const next = batchReader(opened, ledgerTables(opened), privacy);
    return {
      db: opened,
      next: (from) => next(from, size),
      close() {
        opened.close();
        gate?.leave();
      },
    };
  } catch (error) {
    db?.close();
    gate?.leave();
    throw error;
  }
}

interface Standing {
  shop: number;
  place: FeedPlace;
}

/** @throws LedgerError as `mayGoOn` and `beginBranch` */
async function standing(server: Server, { db }: OpenBook, options: FeederOptions): Promise<Standing> {
  const { branch, name, privacy } = options;
  const found =
    (await branchAt(server, branch)) ??
    (await beginBranch(server, branch, { name, bookVersion: BOOK_VERSION, personal: privacy.personal }));
  mayGoOn(db, found);
  return found;
}
