/** The log of changes as the open book uses it. Its reader works on a connection of its own. */
import type Database from 'better-sqlite3';
import { addFeed, FEED_TABLE, isFed, logEverything, removeFeed } from './feed-schema.ts';

type Db = Database.Database;

/** A place in the log: `seq` counts changes, `mark` says which continuation of the book made this one. */
export interface FeedPlace {
  seq: number;
  mark: number;
}

/** What waits to be sent. */
export interface Backlog {
  /** Logged changes; a row that changed twice counts twice. */
  changes: number;
  /** UTC moment of the oldest of them; null for none. */
  since: string | null;
}

/** The place before the first change. */
export const BEGINNING: FeedPlace = { seq: 0, mark: 0 };

/** How many sent changes are removed at a time: a few milliseconds. */
const PRUNE_AT_ONCE = 5000;

export function feedLog(db: Db) {
  return {
    isOn: (): boolean => isFed(db),
    /** Begins the log with every row there is. Call inside a transaction. */
    begin(): void {
      removeFeed(db);
      addFeed(db);
      logEverything(db);
    },
    /** Begins behind a place that a ledger has, without logging anything: for a book made from it. Call inside a transaction. */
    beginBehind({ seq, mark }: FeedPlace): void {
      removeFeed(db);
      addFeed(db);
      db.prepare(`INSERT INTO ${FEED_TABLE} VALUES (?, 'setting', '', ?, unixepoch())`).run(seq, mark);
    },
    /** Logs every row again, behind what was logged. Call inside a transaction. */
    repeat: (): void => logEverything(db),
    /** Ends the log. Call inside a transaction. */
    end: (): void => removeFeed(db),
    backlog: (sent: number): Backlog => backlogOf(db, sent),
    /**
     * Removes changes that were sent and are older than a moment, some at a time. The last change always stays: without it
     * the count would begin anew.
     * @param before seconds since 1970
     * @returns whether there may be more
     */
    prune(sent: number, before: number): boolean {
      const { changes } = db
        .prepare(
          `DELETE FROM ${FEED_TABLE} WHERE seq IN (
             SELECT seq FROM ${FEED_TABLE} WHERE seq < min(@sent, (SELECT max(seq) FROM ${FEED_TABLE})) AND at < @before
             ORDER BY seq LIMIT ${PRUNE_AT_ONCE})`,
        )
        .run({ sent, before });
      return changes === PRUNE_AT_ONCE;
    },
  };
}

/** What of a book waits to be sent behind `sent`. The count has no gaps, so nothing is counted row by row. */
export function backlogOf(db: Db, sent: number): Backlog {
  const since = db
    .prepare<[number], string>(
      `SELECT strftime('%Y-%m-%dT%H:%M:%SZ', at, 'unixepoch') FROM ${FEED_TABLE} WHERE seq > ? ORDER BY seq LIMIT 1`,
    )
    .pluck()
    .get(sent);
  if (since === undefined) return { changes: 0, since: null };
  const first = Number(db.prepare(`SELECT min(seq) FROM ${FEED_TABLE} WHERE seq > ?`).pluck().get(sent));
  return { changes: newestPlace(db).seq - first + 1, since };
}

/** The newest place of the log. */
export function newestPlace(db: Db): FeedPlace {
  return (
    db.prepare<[], FeedPlace>(`SELECT seq, mark FROM ${FEED_TABLE} ORDER BY seq DESC LIMIT 1`).get() ??
    BEGINNING
  );
}
