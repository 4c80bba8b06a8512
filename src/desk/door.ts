/** Opens and closes books. The desk works in the shop's, the demo's, or none while the shop's does not open. */
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
import type { Door } from './session/procedure.ts';
import { createSession, type Session } from './session/session.ts';
import {
  tryRemoveTemporary,
  removeTemporariesOf,
  withTemporaryAsync,
  temporaryFolder,
} from './session/temporary.ts';

/** A book with an invented season to look at, made by whoever opens the desk. */
export interface DemoBook {
  /** The moment that its season is shown at. */
  now: Date;
  /** Puts a fresh copy at `path`. */
  copyTo(path: string): Promise<void>;
}

interface DoorOptions {
  bookPath: string;
  /** The book was named by whoever started the program: one that is not there is not made. */
  named?: boolean | undefined;
  clock: () => Date;
  /** Whether a backup is made and the file sealed when it closes. */
  guarded: boolean;
  demoBook?: DemoBook | undefined;
  /** Receives errors raised outside a request. */
  onBroken: (error: unknown) => void;
}

export class BookDoor implements Door {
  /** The open book, or null while there is trouble. */
  session: Session | null = null;
  trouble: BookError | null = null;
  /** Why the demo that the program was started with could not be set up; no book is open then. */
  noDemo: ProblemError | null = null;
  readonly bookPath: string;
  readonly now: () => Date;
  readonly #named: boolean;
  readonly #guarded: boolean;
  readonly #demoBook: DemoBook | undefined;
  readonly #onBroken: (error: unknown) => void;

  constructor({ bookPath, named, clock, guarded, demoBook, onBroken }: DoorOptions) {
    this.bookPath = bookPath;
    this.now = clock;
    this.#named = named ?? false;
    this.#guarded = guarded;
    this.#demoBook = demoBook;
    this.#onBroken = onBroken;
  }

  /** Opens the shop's book if none is open; `asItIs` takes a file that is not as it was left. */
  open(asItIs = false): void {
    if (this.session) return;
    clearOwnPartials(this.bookPath);
    this.#attempt(() => this.#shop(asItIs));
  }

  /** Starts in the demo. What keeps it from being set up is told by every answer, as with a book that does not open. */
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

  /** Tries what did not open at the start once more; `asItIs` takes a file that is not as it was left. */
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
    const next = this.#shop(false, true); // leaving the demo asks for the book
    this.close();
    return (this.session = next);
  }

  /**
   * Puts a backup in the book's place and opens it. If it does not open, everything is as it was before.
   * @param firstLook what a window does first with a book that was opened
   * @returns where the replaced book lies, or null if there was none
   * @throws BookError
   */
  restore(source: Source, opening: Opening, firstLook: (session: Session) => unknown): string | null {
    const places = this.session && placesOf(this.session);
    // The backup made on closing begins a new day, on which the one that is wanted might have to go.
    this.close({ keeping: source.path });
    let aside: string | null | undefined;
    try {
      aside = restoreBackup(this.bookPath, source, this.now(), opening);
      this.session = this.#shop(true);
      firstLook(this.session);
      if (places) carryOver(this.session, places);
      this.trouble = null;
      return aside;
    } catch (error) {
      this.#letGo();
      if (aside !== undefined) undoRestore(this.bookPath, aside);
      // A book that did not open before must not be opened by a restore that failed.
      if (!this.trouble) this.#attempt(() => this.#shop(true));
      throw error;
    }
  }

  /** Begins a new, empty book; the file that does not open is kept beside it. */
  beginAnew(): void {
    if (this.session) return;
    const aside = existsSync(this.bookPath) ? setAside(this.bookPath, this.now()) : null;
    this.#attempt(() => this.#opened());
    if (!this.session && aside) undoRestore(this.bookPath, aside);
  }

  /**
   * The open book's file gave trouble: lets go of it and tries it afresh. Where the file went away or was exchanged,
   * the connection still reads what was kept, so a backup is made of that first.
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
   * Lets go of the book, leaving one whole file; one that changed is backed up first, unless there is no time for it.
   * @param how.keeping a backup that stays although others are thinned
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
      inspectBook(this.bookPath); // says more precisely what happened, if SQLite sees it
      throw new BookError('changed', this.bookPath);
    }
    return this.#opened();
  }

  #opened(): Session {
    const book = openRecordBook(this.bookPath, this.now());
    breakSeal(this.bookPath);
    return createSession({ book, demo: false, clock: this.now, host: this });
  }

  /** A throw-away book filled with the invented season, in a folder of its own, on its own calendar. */
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
    if (!kept.ok) this.#onBroken(kept.trouble);
  }

  #letGo(): void {
    const { session } = this;
    this.session = null;
    if (!session) return;
    this.#try(() => session.book.close());
    removeTemporariesOf(session);
  }

  /** A file on a drive that went away cannot even be closed; there is nothing more to do about it than to say so. */
  #try(work: () => void): void {
    try {
      work();
    } catch (error) {
      this.#onBroken(error);
    }
  }
}

/** Where backups go and how they are locked belongs to this computer, not to the day the restored backup was made. */
function placesOf({ demo, settings, book }: Session) {
  return demo ? null : { folder: settings.secondBackupFolder, lock: storedLock(book) };
}

function carryOver({ book }: Session, { folder, lock }: NonNullable<ReturnType<typeof placesOf>>): void {
  book.change(() => {
    book.settings.put('secondBackupFolder', folder);
    if (lock !== null) book.settings.put('backupLock', lock);
  });
}
