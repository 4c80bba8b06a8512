import type { TillEntry } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/till.ts';

/**
 * The name of a till entry.
 * @example entryName({ what: 'void', kind: 'deposit' }) // 'Void of deposit'
 */
export function entryName({ what, kind }: Pick<TillEntry, 'what' | 'kind'>): string {
  return what === 'void' ? text.voidOf[kind] : text.kinds[kind];
}
