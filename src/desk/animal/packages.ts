/** An animal's packages: those packed at the Table, and its share of each batch. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { ownersOf } from './owners.ts';
import type { Session } from '../session/session.ts';
import type { AnimalPage } from '../contract/contract.ts';

export function packagesOf(
  session: Session,
  animal: Pick<AnimalRow, 'id' | 'ticket'>,
  weighings: readonly WeighingRecord[],
): AnimalPage['packages'] {
  const own = weighings
    .filter((row) => row.stage === 'packed' && row.void_at === null)
    .map((row) => ({
      product: row.product ?? '',
      count: row.count ?? 0,
      grams: row.grams,
      batch: null,
      places: placesOf([row]),
    }));
  const ground = session.book.batches.ofAnimal(animal.id).flatMap(({ id, name }) => {
    const share = ownersOf(session, id).find(({ ticket }) => ticket === animal.ticket);
    const packed = session.book.weighings
      .ofBatch(id)
      .filter((row) => row.stage === 'packed' && row.void_at === null);
    if (!share || packed.length === 0) return [];
    return [
      {
        product: packed[0]?.product ?? '',
        count: share.packages,
        grams: share.shareGrams,
        batch: name,
        places: placesOf(packed),
      },
    ];
  });
  return [...own, ...ground];
}

/** Freezer places of weighings, without repeats, in order of packing. */
function placesOf(rows: readonly WeighingRecord[]): string[] {
  return [...new Set(rows.flatMap(({ place }) => (place ? [place] : [])))];
}
