/** Derived weights of an animal: its base, its whole cuts and its take-home. */
import type { YieldRow } from '../../book/sums/sums.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

/** The weight that shares refer to: hanging, or received when it came skinned or in pieces. */
export function baseGrams(animal: Pick<YieldRow, 'brought' | 'hanging' | 'received'>): number | null {
  const onTheHook = isWholeCarcass(animal.brought);
  if (!onTheHook) return animal.received ?? animal.hanging;
  return animal.hanging ?? (animal.brought === 'skinned' ? animal.received : null);
}

/** The animal's own meat and saved fat for the hunter, without added fat; null while unknown. */
export function takeHomeGrams(
  row: Omit<YieldRow, 'id' | 'ticket' | 'season' | 'damage_note' | 'cuts_ordered' | 'packed_ground'>,
): number | null {
  // Steaks packed without a weight at the table count by their packages, but only when the grind went through a
  // batch.
  const cuts = cutsGrams(row);
  const ownFat = row.fat_saved ?? row.own_fat_ground;
  if (cuts !== null || row.trim !== null) return (cuts ?? 0) + (row.trim ?? row.trim_ground) + ownFat;
  if (row.packed === null && row.trim_ground === 0) return null;
  return (row.packed ?? 0) + row.trim_ground + ownFat;
}

function cutsGrams(row: Pick<YieldRow, 'whole_cuts' | 'trim_ground' | 'packed'>): number | null {
  return row.whole_cuts ?? (row.trim_ground > 0 ? row.packed : null);
}

/** Like `takeHomeGrams`, but also null while steaks were only packed and trim still waits for the grinder. */
export function wholeTakeHomeGrams(row: YieldRow): number | null {
  return row.whole_cuts === null && row.trim !== null && row.trim_ground === 0 ? null : takeHomeGrams(row);
}
