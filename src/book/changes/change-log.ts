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

  function record(change: Change): void {
    if (changes.length >= MAX_KNOWN) drop();
    changes.push(change);
    bump(change.topic);
    if (change.season !== null) bump(`${change.topic} ${change.season}`);
  }

  db.function('changed', (topic: number, id: number | null, season: number | null) => {
    record({ topic: TOPICS[topic] ?? 'trail', id, season });
    return null;
  });
  for (const [index, watch] of WATCHED.entries()) db.exec(trigger(watch, index));

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

function trigger({ table, verb, topic, when, id, season }: Watch, index: number): string {
  // A null condition would keep the trigger from firing.
  return `CREATE TEMP TRIGGER changed_${index} AFTER ${verb} ON main.${table}${when ? ` WHEN coalesce(${when}, 1)` : ''} BEGIN
    SELECT changed(${TOPICS.indexOf(topic)}, ${id ?? 'NULL'}, ${season ?? 'NULL'});
  END`;
}
