import type { ChangeLog } from '../changes/change-log.ts';
import { cachedRows } from './cached-rows.ts';
import type { Db } from '../file/db.ts';

/** An animal of a season with its sums, named like the columns of `animal_sum`. */
export interface SeasonRow {
  animal_id: number;
  ticket: string;
  species: string;
  brought: string;
  sex: string;
  age: string;
  damaged: 0 | 1;
  detail: string;
  cutter: string | null;
  stage: string;
  received_on: string;
  /** Set when it became ready, and never cleared. */
  ready_on: string | null;
  /** Moment (UTC) of the first part or package on the scale. */
  cut_at: string | null;
  trim: number | null;
  trim_ground: number;
  fat_saved: number | null;
  own_fat_ground: number;
  bone: number | null;
  sinew: number | null;
  damage: number | null;
  packed: number | null;
  base: number | null;
  take_home: number | null;
  finished: 0 | 1;
  share: number | null;
}

/** All animals of a season, unordered. */
export function seasonRows(db: Db, changes: ChangeLog) {
  return cachedRows<SeasonRow, SeasonRow>(
    db,
    changes,
    (
      condition,
    ) => `SELECT s.animal_id, a.ticket, s.species, s.brought, s.sex, s.age, s.damaged, s.detail, s.cutter, s.stage, s.received_on,
       s.ready_on, s.cut_at, s.trim, s.trim_ground, s.fat_saved, s.own_fat_ground, s.bone, s.sinew, s.damage, s.packed, s.base, s.take_home, s.finished, s.share
     FROM animal_sum s JOIN animal a ON a.id = s.animal_id WHERE ${condition}`,
    (row) => row,
  );
}
