import type { ChangeOf } from '../../book/sums/animal-changes.ts';
import type { Book } from '../../book/book.ts';

/** So many answers of all seasons; what was not asked for longest goes first. */
const MOST_KEPT = 2000;

/**
 * The answer to `what`, which says everything that it hangs on beside the season's animals (or their bills): worked out
 * when it is first asked for, and again after one of these changed.
 */
export type KeptOfSeason = <T>(changing: ChangeOf, season: number, what: string, work: () => T) => T;

export function keptOfSeason({ changes, db }: Pick<Book, 'changes' | 'db'>): KeptOfSeason {
  const kept = new Map<string, { at: number; answer: unknown }>();
  return <T>(changing: ChangeOf, season: number, what: string, work: () => T): T => {
    // What a transaction changed may yet be undone, so it is not kept.
    if (db.inTransaction) return work();
    const key = `${season} ${what}`;
    const at = changes.ofSeason(changing, season);
    const known = kept.get(key);
    kept.delete(key);
    const answer = known?.at === at ? (known.answer as T) : work();
    kept.set(key, { at, answer });
    const [oldest] = kept.keys();
    if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
    return answer;
  };
}
