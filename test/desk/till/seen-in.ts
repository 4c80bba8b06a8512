import type { CallInput, TillView } from '../../../src/bridge/contract.ts';

/** The sums of a till as its page sends them with the closing. */
export function seenIn({ sums }: Pick<TillView, 'sums'>): CallInput<'till.close'>['seen'] {
  return sums
    .filter(({ by }) => by === null)
    .map(({ method, count, totalMinor }) => ({ method, count, totalMinor }));
}
