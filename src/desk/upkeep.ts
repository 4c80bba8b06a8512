/** Background work of a running desk: backups, summaries of past seasons, and detecting writes of other programs. */
import { bookErrorIn } from './contract/book-problems.ts';
import type { Door } from './session/procedure.ts';
import { wipeIfDue } from './records/remove-details.ts';
import { summariseNext } from './session/season-summaries.ts';

export interface UpkeepTimes {
  /** How often a book that changed is backed up, ms. */
  backUpEvery: number;
  /** How often the book is asked whether another program wrote, and whether a season lacks its summary, ms. */
  lookEvery: number;
}

/** Half an hour of typing is what a dead computer may cost at most: our choice, no source. */
export const USUAL_TIMES: UpkeepTimes = { backUpEvery: 30 * 60_000, lookEvery: 2_000 };

interface Desk {
  /** Tells the windows of a change. */
  announce(call: null, stale: null): void;
  /** Makes a backup and tells the windows, also when there could be none; never rejects. */
  backUp(): Promise<void>;
  /** Whether the worker thread writes just now: then nobody else can. */
  isWriting(): boolean;
}

/** A summary only saves time: one that could not be written (a full disk) is tried again after this long, ms. */
const SUMMARISE_AGAIN = 10 * 60_000;

/**
 * Begins; the function that it returns ends it.
 * @param desk what upkeep asks of the desk
 * @param onBroken receives errors raised outside a request
 */
export function startUpkeep(
  door: Door,
  { backUpEvery, lookEvery }: UpkeepTimes,
  { announce, backUp, isWriting }: Desk,
  onBroken: (error: unknown) => void,
): () => void {
  const backups = setInterval(() => {
    const { session } = door;
    if (!session || session.demo) return;
    wipeIfDue(session);
    if (!session.backups.due()) return;
    // What went wrong stays with the room, and the Shop shows it.
    void backUp();
  }, backUpEvery);
  const looks = setInterval(() => {
    noticeOthers();
    summarise();
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
      summariseNext(session);
    } catch (error) {
      summariseFrom = Date.now() + SUMMARISE_AGAIN;
      onBroken(error);
    }
  }
  return () => {
    clearInterval(backups);
    clearInterval(looks);
  };
}
