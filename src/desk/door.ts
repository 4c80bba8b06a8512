/** Opens and closes books. The desk works in the shop's, the demo's, or none while the shop's does not open. */
import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { openRecordBook } from '../book/book.ts';
import { clearOwnPartials } from '../book/file/backup.ts';
import { expectBook } from '../book/file/expect-book.ts';
import { inspectBook } from '../book/file/open.ts';
import { setAside, type Source } from '../book/file/books-aside.ts';
import { restoreBackup, undoRestore, type Opening } from '../book/file/restore.ts';
import { breakSeal, seal, sealHolds } from '../book/file/seal.ts';
import { BookError } from '../book/file/book-error.ts';
import { makeBackup, storedLock } from './session/make-backup.ts';
import { bookErrorIn } from './contract/book-problems.ts';
import { ProblemError } from './contract/problem.ts';
import { LINEAGE } from './stations/settings.ts';
import type { Door } from './session/procedure.ts';
import { restorePhotos } from './session/photo-keeping.ts';
import { createSession, type Session } from './session/session.ts';
import type { Vault } from './session/vault.ts';
import {
  tryRemoveTemporary,
  removeTemporariesOf,
  withTemporaryAsync,
  temporaryFolder,
} from './session/temporary.ts';

/** A demo book, supplied by the creator of the desk. */
export interface DemoBook {
  /** The demo's current moment. */
  now: Date;
  /** Creates a fresh copy at `path`. */
  copyTo(path: string): Promise<void>;
}

interface DoorOptions {
  bookPath: string;
  /** The book was named on the command line: a missing one is not created. */
  named?: boolean | undefined;
  clock: () => Date;
  /** Whether a backup is made and the file sealed on closing. */
  guarded: boolean;
  demoBook?: DemoBook | undefined;
  /** The script of the ledger's threads. */
  ledgerProgram: URL;
  /** The system's key store; absent where there is none. */
  vault?: Vault | undefined;
  /** Receives errors raised outside a request. */
  onBroken: (error: unknown) => void;
}

export class BookDoor implements Door {
  /** The open book, or null while there is an error. */
  session: Session | null = null;
  trouble: BookError | null = null;
  /** Why the demo of the start could not be created; no book is open then. */
  noDemo: ProblemError | null = null;
  readonly bookPath: string;
  readonly now: () => Date;
  readonly ledgerProgram: URL;
  readonly vault: Vault | undefined;
  readonly onBroken: (error: unknown) => void;
  readonly #named: boolean;
  readonly #guarded: boolean;
  readonly #demoBook: DemoBook | undefined;

  constructor(options: DoorOptions) {
    const { bookPath, named, clock, guarded, demoBook, ledgerProgram, vault, onBroken } = options;
    this.bookPath = bookPath;
    this.now = clock;
    this.#named = named ?? false;
    this.#guarded = guarded;
    this.#demoBook = demoBook;
    this.ledgerProgram = ledgerProgram;
    this.vault = vault;
    this.onBroken = onBroken;
  }

  /** Opens the shop's book if none is open; `asItIs` accepts a file that changed since its last close. */
  open(asItIs = false): void {
    if (this.session) return;
    clearOwnPartials(this.bookPath);
    this.#attempt(() => this.#shop(asItIs));
  }

  /** Starts in the demo. A failure is reported by every answer, as for a book that does not open. */
  async startInDemo(): Promise<void> {
    try {
      await this.openDemo();
      this.noDemo = this.trouble = null;
    } catch (error) {
      if (error instanceof ProblemError) this.noDemo = error;
      else if (error instanceof BookError) this.trouble = error;
      else throw error;
    }
  }

  /** Retries after a failed start; `asItIs` accepts a file that changed since its last close. */
  async tryAgain(asItIs: boolean): Promise<void> {
    if (this.noDemo) await this.startInDemo();
    else this.open(asItIs);
  }

  async openDemo(): Promise<Session> {
    if (this.session?.demo) return this.session;
    const next = await this.#demo();
    this.close();
    return (this.session = next);
  }

  async leaveDemo(): Promise<Session> {
    if (this.session && !this.session.demo) return this.session;
    const next = this.#shop(false, true); // leaving the demo requires the book
    this.close();
    return (this.session = next);
  }

  /**
   * Replaces the book with a backup and opens it. On failure everything is restored.
   * @param firstLook the first query of a window on an opened book
   * @returns the path of the replaced book, or null if there was none
   * @throws BookError
   */
  restore(source: Source, opening: Opening, firstLook: (session: Session) => unknown): string | null {
    const places = this.session && placesOf(this.session);
    // The backup on closing starts a new day, whose rotation might delete the wanted one.
    this.close({ keeping: source.path });
    let aside: string | null | undefined;
    try {
      aside = restoreBackup(this.bookPath, source, this.now(), opening);
      this.session = this.#shop(true);
      firstLook(this.session);
      if (places) carryOver(this.session, places);
      drawLineage(this.session);
      const { book } = this.session;
      this.#try(() => restorePhotos(book, source, opening.opener));
      this.trouble = null;
      return aside;
    } catch (error) {
      this.#letGo();
      if (aside !== undefined) undoRestore(this.bookPath, aside);
      // A book that did not open before must not be opened by a failed restore.
      if (!this.trouble) this.#attempt(() => this.#shop(true));
      throw error;
    }
  }

  /** Starts a new, empty book; the file that does not open is kept beside it. */
  beginAnew(): void {
    if (this.session) return;
    const aside = existsSync(this.bookPath) ? setAside(this.bookPath, this.now()) : null;
    this.#attempt(() => this.#opened());
    if (!this.session && aside) undoRestore(this.bookPath, aside);
  }

  /**
   * After an error of the open book's file: closes and reopens it. If the file was deleted or replaced, the
   * connection can still read it, so it is backed up first.
   */
  recover(trouble: BookError): void {
    if (!this.session || this.session.demo) return;
    const lost = trouble.code === 'missing' || trouble.code === 'changed';
    if (lost) this.#backUp(this.session);
    this.#letGo();
    if (lost) this.trouble = trouble;
    else this.#attempt(() => this.#shop(false));
  }

  /**
   * Closes the book, leaving one complete file; a changed one is backed up first, unless there is no time for it.
   * @param how.keeping a backup that is never deleted
   */
  close({ backUp = true, keeping }: { backUp?: boolean; keeping?: string } = {}): void {
    const { session } = this;
    if (!session) return;
    if (backUp && this.#guarded && !session.demo && session.backups.due()) this.#backUp(session, keeping);
    this.#letGo();
    if (session.demo) tryRemoveTemporary(dirname(session.book.path));
    else if (this.#guarded) this.#try(() => seal(this.bookPath));
  }

  #shop(asItIs: boolean, mayMake = !this.#named): Session {
    expectBook(this.bookPath);
    if (!mayMake && !existsSync(this.bookPath)) throw new BookError('absent', this.bookPath);
    if (!asItIs && !sealHolds(this.bookPath)) {
      inspectBook(this.bookPath); // gives a more precise error, if SQLite finds one
      throw new BookError('changed', this.bookPath);
    }
    return this.#opened();
  }

  #opened(): Session {
    const book = openRecordBook(this.bookPath, this.now());
    breakSeal(this.bookPath);
    return createSession({ book, demo: false, clock: this.now, host: this });
  }

  /** A temporary book with the demo season, in its own folder and calendar. */
  async #demo(): Promise<Session> {
    const demo = this.#demoBook;
    if (!demo) throw new Error('This desk was opened without a demo.');
    const folder = temporaryFolder('demo');
    const started = Date.now();
    const clock = () => new Date(demo.now.getTime() + (Date.now() - started));
    const path = join(folder, 'demo.gambrel');
    try {
      const book = await withTemporaryAsync(async () => {
        await demo.copyTo(path);
        return openRecordBook(path, demo.now, true);
      });
      return createSession({ book, demo: true, clock, host: this });
    } catch (error) {
      tryRemoveTemporary(folder);
      throw error;
    }
  }

  #attempt(open: () => Session): void {
    try {
      this.session = open();
      this.trouble = null;
    } catch (error) {
      const trouble = bookErrorIn(error, this.bookPath);
      if (!trouble) throw error;
      this.trouble = trouble;
    }
  }

  #backUp(session: Session, keeping?: string): void {
    const kept = makeBackup(session, this.now(), keeping);
    if (!kept.ok) this.onBroken(kept.trouble);
  }

  #letGo(): void {
    const { session } = this;
    this.session = null;
    if (!session) return;
    this.#try(() => session.book.close());
    removeTemporariesOf(session);
  }

  /** A file on a disconnected drive cannot even be closed; that is only reported. */
  #try(work: () => void): void {
    try {
      work();
    } catch (error) {
      this.onBroken(error);
    }
  }
}

/** The second place and the lock belong to this computer, not to the restored backup. */
function placesOf({ demo, settings, book }: Session) {
  return demo ? null : { folder: settings.secondBackupFolder, lock: storedLock(book) };
}

function carryOver({ book }: Session, { folder, lock }: NonNullable<ReturnType<typeof placesOf>>): void {
  book.change(() => {
    book.settings.put('secondBackupFolder', folder);
    if (lock !== null) book.settings.put('backupLock', lock);
  });
}

/** Ids that a station wrote down before the restore may mean other records now. */
function drawLineage({ book }: Session): void {
  if (book.stations.all().length > 0) book.change(() => book.settings.put(LINEAGE, randomUUID()));
}
