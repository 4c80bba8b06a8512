import type { Book } from '../../book/book.ts';

/** So many answers of all seasons; what was not asked for longest goes first. */
const MAX_KEPT = 2000;

/**
 * The answer to `what`, which names everything that it depends on beside the season's animals (or their bills): worked out
 * when it is first asked for, and again after one of these changed.
 */
export type SeasonCache = <T>(topic: 'animal' | 'money', season: number, what: string, work: () => T) => T;

export function seasonCache({ changes }: Pick<Book, 'changes'>): SeasonCache {
  const kept = new Map<string, { version: number; answer: unknown }>();
  return <T>(topic: 'animal' | 'money', season: number, what: string, work: () => T): T => {
    const key = `${season} ${what}`;
    const version = changes.seasonVersion(topic, season);
    const known = kept.get(key);
    kept.delete(key);
    const answer = known?.version === version ? (known.answer as T) : work();
    kept.set(key, { version, answer });
    const [oldest] = kept.keys();
    if (kept.size > MAX_KEPT && oldest !== undefined) kept.delete(oldest);
    return answer;
  };
}
