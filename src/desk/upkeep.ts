/**
 * Background work of a running desk: backups, summaries of past seasons, the age of hunters’ drafts, files of photographs that belong to
 * nothing, and detecting writes of other programs.
 */
import { removeOldDrafts } from './animals/check-in/draft-age.ts';
import { followLedger, pruneFeed } from './ledger/feeding.ts';
import { teachThroughLedger, type TeachingDesk } from './ledger/teaching.ts';
import { bookErrorIn } from './contract/book-problems.ts';
import type { Door } from './session/procedure.ts';
import { wipeIfDue } from './records/remove-details.ts';
import { tidyPhotos } from './session/photo-keeping.ts';
import { summariseNext } from './session/season-summaries.ts';
import type { Session } from './session/session.ts';
import { stationSettings } from './stations/settings.ts';

export interface UpkeepTimes {
  /** Interval of backups of a changed book, ms. */
  backUpEvery: number;
  /** Interval of checks for other programs' writes and for missing season summaries, ms. */
  lookEvery: number;
}

/** The maximum loss when a computer fails, half an hour of typing: our choice, no source. */
export const USUAL_TIMES: UpkeepTimes = { backUpEvery: 30 * 60_000, lookEvery: 2_000 };

interface Desk {
  /** Announces a change to the windows. */
  announce(call: null, stale: null): void;
  /** Makes a backup and announces it, also a failed one; never rejects. */
  backUp(): Promise<void>;
  /** Whether the worker thread is writing: then nobody else can. */
  isWriting(): boolean;
  /** Tells the windows that the ledger's state changed. */
  announceLedger(): void;
  teaching: TeachingDesk;
}

/** A summary only saves time: after a failure (a full disk) it is retried after this long, ms. */
const SUMMARISE_AGAIN = 10 * 60_000;
/** How often sent changes are removed from the log of a fed book, ms. */
const PRUNE_EVERY = 60_000;
/** How often drafts of hunters and photographs without an entry are looked at for their age, ms. */
const AGES_EVERY = 60 * 60_000;

/**
 * Starts upkeep; the returned function stops it.
 * @param desk the part of the desk that upkeep uses
 * @param onBroken receives errors raised outside a request
 */
export function startUpkeep(
  door: Door,
  { backUpEvery, lookEvery }: UpkeepTimes,
  { announce, backUp, isWriting, announceLedger, teaching }: Desk,
  onBroken: (error: unknown) => void,
): () => void {
  const backups = setInterval(() => {
    const { session } = door;
    if (!session || session.demo) return;
    wipeIfDue(session);
    if (!session.backups.due()) return;
    // The problem is kept in the session, and the Shop shows it.
    void backUp();
  }, backUpEvery);
  const looks = setInterval(() => {
    noticeOthers();
    summarise();
    forgetOld();
    followFeed();
  }, lookEvery);
  function noticeOthers(): void {
    const { session } = door;
    try {
      if (session?.othersWrote()) announce(null, null);
    } catch (error) {
      const trouble = session && bookErrorIn(error, session.book.path);
      if (!trouble) return onBroken(error);
      door.recover(trouble);
      announce(null, null);
    }
  }
  let summariseFrom = 0;
  function summarise(): void {
    const { session } = door;
    if (!session || session.demo || isWriting() || Date.now() < summariseFrom) return;
    try {
      if (!summariseNext(session)) learnAhead(session);
    } catch (error) {
      summariseFrom = Date.now() + SUMMARISE_AGAIN;
      onBroken(error);
    }
  }
  let learned: Session | null = null;
  /** The first weight after opening would wait for what earlier animals teach, and all stations for it. */
  function learnAhead(session: Session): void {
    if (learned === session || !stationSettings(session.book).on) return;
    learned = session;
    void session.yields;
  }
  let agesFrom = 0;
  function forgetOld(): void {
    const { session } = door;
    if (!session || session.demo || isWriting() || Date.now() < agesFrom) return;
    agesFrom = Date.now() + AGES_EVERY;
    try {
      removeOldDrafts(session);
      tidyPhotos(session.book);
    } catch (error) {
      onBroken(error);
    }
  }
  let pruneFrom = 0;
  function followFeed(): void {
    const { session } = door;
    if (!session || session.demo || isWriting()) return;
    try {
      followLedger(session, { program: door.ledgerProgram, announce: announceLedger, onBroken }).catch(
        onBroken,
      );
      teachThroughLedger(session, teaching).catch(onBroken);
      if (Date.now() < pruneFrom) return;
      pruneFrom = Date.now() + PRUNE_EVERY;
      pruneFeed(session, new Date(session.now()));
    } catch (error) {
      onBroken(error);
    }
  }
  return () => {
    clearInterval(backups);
    clearInterval(looks);
  };
}
