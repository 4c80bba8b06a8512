import type { AnimalPage, WeighingRow } from '../../bridge/contract.ts';

/** The latest weight that can be undone at the table: not voided, and not in a batch; null if there is none. */
export function lastWeight({ weighings }: Pick<AnimalPage, 'weighings'>): WeighingRow | null {
  const mayGo = weighings.filter(({ voided, batch }) => voided === null && !batch);
  return mayGo.reduce<WeighingRow | null>((last, row) => (last && last.id > row.id ? last : row), null);
}
