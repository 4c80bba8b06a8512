/** What changed in the book while it is open: caches compare versions with it, and windows are told by it. */
import type { Db } from '../file/db.ts';
import { TOPICS, WATCHED, type Topic, type Watch } from './topics.ts';

/** With more changes than this at once (a file brought in), every record may have changed. */
const MAX_KNOWN = 1000;

interface Change {
  topic: Topic;
  id: number | null;
  season: number | null;
}

export interface ChangeLog {
  /** Where the log stands now: `since` tells what came after. */
  mark(): number;
  /** What changed since a mark; null where it is not known any more: anything may have. */
  since(mark: number): ChangesSince | null;
  /** Rises with every change of the topic: what was read at another version is out of date. */
  version(topic: Topic): number;
  /** As `version`, of the topic in one season's animals. */
  seasonVersion(topic: 'animal' | 'money' | 'quote', season: number): number;
  /** A transaction that began at this mark was rolled back: what was read within it is as out of date as what was read before it was. */
  rolledBack(mark: number): void;
  /** Another program wrote: anything may have changed. */
  invalidate(): void;
}

export interface ChangesSince {
  mark: number;
  topics: ReadonlySet<Topic>;
  /** Animals that changed, with the seasons that they are or were in. */
  animals: ReadonlyMap<number, ReadonlySet<number>>;
  /** Batches of tested grinds that changed. */
  testedGrinds: ReadonlySet<number>;
}

/** Fills the log by triggers of this connection alone: they are no part of the book and write nothing. */
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
  // A condition that is null would keep the trigger from firing.
  return `CREATE TEMP TRIGGER changed_${index} AFTER ${verb} ON main.${table}${when ? ` WHEN coalesce(${when}, 1)` : ''} BEGIN
    SELECT changed(${TOPICS.indexOf(topic)}, ${id ?? 'NULL'}, ${season ?? 'NULL'});
  END`;
}
