/** The changes to the open book: caches compare versions with it, and windows are notified from it. */
import type { Db } from '../file/db.ts';
import { TOPICS, WATCHED, type Topic, type Watch } from './topics.ts';

/** After more changes than this at once (an import), every record counts as changed. */
const MAX_KNOWN = 1000;

interface Change {
  topic: Topic;
  id: number | null;
  season: number | null;
}

export interface ChangeLog {
  /** The current position of the log: `since` returns later changes. */
  mark(): number;
  /** The changes since a mark; null if no longer known: anything may have changed. */
  since(mark: number): ChangesSince | null;
  /** Increases with every change of the topic: results of another version are outdated. */
  version(topic: Topic): number;
  /** Like `version`, for the topic in one season's animals. */
  seasonVersion(topic: 'animal' | 'money' | 'quote', season: number): number;
  /** A transaction that began at this mark was rolled back: results read within it and before it are outdated. */
  rolledBack(mark: number): void;
  /** Another program wrote: anything may have changed. */
  invalidate(): void;
}

export interface ChangesSince {
  mark: number;
  topics: ReadonlySet<Topic>;
  /** Changed animals, with their present and former seasons. */
  animals: ReadonlyMap<number, ReadonlySet<number>>;
  /** Changed batches of tested grinds. */
  testedGrinds: ReadonlySet<number>;
}

/** Fills the log by temporary triggers of this connection, which are no part of the book and write nothing. */
export function changeLog(db: Db): ChangeLog {
  /** Changes in order; the first of them has the mark `dropped`. */
  let changes: Change[] = [];
  let dropped = 0;
  let invalidated = 0;
  const versions = new Map<string, number>();
  const bump = (key: string): unknown => versions.set(key, (versions.get(key) ?? 0) + 1);
  const drop = (): void => {
    dropped += changes.length + 1;
    changes = [];
  };
  const mark = (): number => dropped + changes.length;
  const invalidate = (): void => {
    drop();
    invalidated += 1;
  };

  /** The newest half stays known: what looked a moment ago goes on from there, and need not begin anew. */
  function forgetOldest(): void {
    dropped += changes.splice(0, MAX_KNOWN / 2).length;
  }

  function record(change: Change): void {
    if (changes.length >= MAX_KNOWN) forgetOldest();
    changes.push(change);
    bump(change.topic);
    if (change.season !== null) bump(`${change.topic} ${change.season}`);
  }

  db.function('changed', (topic: number, id: number | null, season: number | null) => {
    record({ topic: TOPICS[topic] ?? 'trail', id, season });
    return null;
  });
  db.exec(TRIGGERS);

  return {
    mark,
    since(from) {
      if (from < dropped) return null;
      const topics = new Set<Topic>();
      const animals = new Map<number, Set<number>>();
      const testedGrinds = new Set<number>();
      for (const { topic, id, season } of changes.slice(from - dropped)) {
        topics.add(topic);
        if (id === null) continue;
        if (topic === 'fat test') testedGrinds.add(id);
        else animals.set(id, (animals.get(id) ?? new Set()).add(season ?? NaN));
      }
      return { mark: mark(), topics, animals, testedGrinds };
    },
    version: (topic) => invalidated + (versions.get(topic) ?? 0),
    seasonVersion: (topic, season) => invalidated + (versions.get(`${topic} ${season}`) ?? 0),
    rolledBack(from) {
      if (from < dropped) invalidate();
      else changes.slice(from - dropped).forEach(record);
    },
    invalidate,
  };
}

/**
 * One trigger for each table and verb, whatever it concerns: SQLite looks through all triggers of a connection for each that it
 * creates, and for each statement that writes.
 */
const TRIGGERS = Object.entries(
  Object.groupBy(WATCHED, ({ table, verb }) => `AFTER ${verb} ON main.${table}`),
)
  .map(
    ([event, watches = []], index) =>
      `CREATE TEMP TRIGGER changed_${index} ${event} BEGIN SELECT ${watches.map(callOf).join(', ')}; END;`,
  )
  .join('\n');

function callOf({ topic, when, id, season }: Watch): string {
  const call = `changed(${TOPICS.indexOf(topic)}, ${id ?? 'NULL'}, ${season ?? 'NULL'})`;
  // A null condition counts as met.
  return when ? `iif(coalesce(${when}, 1), ${call}, NULL)` : call;
}
