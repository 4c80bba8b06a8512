/** Sums over animals with every part weighed. */
import type { SeasonRow } from '../../book/sums/season-rows.ts';

/** Sums in grams, beside counts: base = parts + shrink + unexplained − over. */
export interface PoundSums {
  n: number;
  base: number;
  whole_cuts: number;
  trim: number;
  fat_saved: number;
  bone: number;
  sinew: number;
  damage: number;
  shrink: number;
  unexplained: number;
  over: number;
  packed: number;
  /** Animals without a weight or statement of damage. */
  damage_unknown: number;
}

type WeighedWhole = SeasonRow & { base: number; take_home: number; bone: number; sinew: number };

/** Every part was weighed, so that the remainder is meaningful. */
export function isWeighedWhole(row: SeasonRow): row is WeighedWhole {
  const { finished, base, take_home: given, bone, sinew } = row;
  return finished === 1 && base !== null && base > 0 && given !== null && bone !== null && sinew !== null;
}

/** @param shrink the share of the base up to which a remainder counts as shrink */
export function poundSums(rows: readonly WeighedWhole[], shrink: number): PoundSums {
  const sums: PoundSums = {
    n: rows.length, base: 0, whole_cuts: 0, trim: 0, fat_saved: 0, bone: 0, sinew: 0, damage: 0, shrink: 0, unexplained: 0, over: 0, packed: 0, damage_unknown: 0,
  }; // prettier-ignore
  for (const row of rows) {
    const meat = row.trim ?? row.trim_ground;
    const fat = row.fat_saved ?? row.own_fat_ground;
    const rest = row.base - row.take_home - row.bone - row.sinew - (row.damage ?? 0);
    sums.base += row.base;
    sums.whole_cuts += row.take_home - meat - fat;
    sums.trim += meat;
    sums.fat_saved += fat;
    sums.bone += row.bone;
    sums.sinew += row.sinew;
    sums.damage += row.damage ?? 0;
    sums.shrink += Math.min(Math.max(rest, 0), shrink * row.base);
    sums.unexplained += Math.max(rest - shrink * row.base, 0);
    sums.over += Math.max(-rest, 0);
    sums.packed += row.packed ?? 0;
    if (row.damage === null) sums.damage_unknown += 1;
  }
  return sums;
}
