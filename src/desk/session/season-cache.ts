import type { Book } from '../../book/book.ts';

/** Maximum number of cached answers over all seasons; the least recently used is evicted first. */
const MAX_KEPT = 2000;

/**
 * Caches the answer to `what`, a key of everything that it depends on apart from the season's animals (or their
 * bills). It is computed on first use, and again after one of those changed.
 */
export type SeasonCache = <T>(topic: 'animal' | 'money', season: number, what: string, work: () => T) => T;

export function seasonCache({ changes }: Pick<Book, 'changes'>): SeasonCache {
  const cache = new Map<string, { version: number; answer: unknown }>();
  return <T>(topic: 'animal' | 'money', season: number, what: string, work: () => T): T => {
    const key = `${season} ${what}`;
    const version = changes.seasonVersion(topic, season);
    const known = cache.get(key);
    cache.delete(key);
    const answer = known?.version === version ? (known.answer as T) : work();
    cache.set(key, { version, answer });
    const [oldest] = cache.keys();
    if (cache.size > MAX_KEPT && oldest !== undefined) cache.delete(oldest);
    return answer;
  };
}
