import type { Db } from '../file/db.ts';

const OF_ANIMAL = {
  hold: 'SELECT count(*) FROM hold WHERE animal_id = ?',
  result: 'SELECT count(*) FROM hold_result r JOIN hold h ON h.id = r.hold_id WHERE h.animal_id = ?',
  note: 'SELECT count(*) FROM call_note WHERE animal_id = ?',
  affectedNote: 'SELECT count(*) FROM affected_note WHERE animal_id = ?',
  split: 'SELECT count(*) FROM share_split WHERE animal_id = ?',
  donation: 'SELECT count(*) FROM donation WHERE animal_id = ?',
  unprocessed: 'SELECT count(*) FROM unprocessed WHERE animal_id = ?',
  notice: 'SELECT count(*) FROM pickup_notice WHERE animal_id = ?',
  photo: 'SELECT count(*) FROM photograph WHERE animal_id = ?',
  belonging: 'SELECT count(*) FROM belonging WHERE animal_id = ?',
  instructions: 'SELECT count(*) FROM instruction WHERE animal_id = ?',
  workTime: 'SELECT count(*) FROM work_time WHERE animal_id = ?',
  adjustment: 'SELECT count(*) FROM adjustment WHERE animal_id = ?',
} as const;

/** Row counts of lists with a maximum length. */
export function rowCounts(db: Db) {
  const ofAnimal = Object.fromEntries(
    Object.entries(OF_ANIMAL).map(([kind, sql]) => [kind, db.prepare<[number], number>(sql).pluck()]),
  );
  const lots = db
    .prepare<[], number>(
      `SELECT count(*) FROM fat_lot l JOIN fat_lot_sum s ON s.lot_id = l.id
       WHERE s.left_grams > 0 AND l.animal_id IS NULL`,
    )
    .pluck();
  return {
    ofAnimal: (kind: keyof typeof OF_ANIMAL, animalId: number): number => ofAnimal[kind]?.get(animalId) ?? 0,
    /** Lots of bought fat that are not empty. */
    boughtLots: (): number => lots.get() ?? 0,
  };
}
