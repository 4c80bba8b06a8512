/** Sums of an animal's weighings by part. */
import type { WeightSums } from '../../book/records/weighings.ts';
import type { Part } from '../../core/yield/yield.ts';

/** The yield model's name of each part on the Table. */
export const PART_OF: Readonly<Record<string, Part>> = {
  'whole cuts': 'wholeCuts',
  trim: 'trim',
  'fat saved': 'fatSaved',
  sinew: 'sinew',
  bone: 'bone',
  damage: 'damage',
};

/** Grams weighed of a part; `meat` is whole cuts and trim together. */
export function partGrams(sums: WeightSums, part: Part): number {
  switch (part) {
    case 'wholeCuts':
      return sums.whole_cuts ?? 0;
    case 'trim':
      return sums.trim ?? 0;
    case 'meat':
      return (sums.whole_cuts ?? 0) + (sums.trim ?? 0);
    case 'fatSaved':
      return sums.fat_saved ?? 0;
    case 'sinew':
      return sums.sinew ?? 0;
    case 'bone':
      return sums.bone ?? 0;
    case 'damage':
      return sums.damage ?? 0;
    default:
      return 0;
  }
}

export function allParts(sums: WeightSums): number {
  return (['meat', 'fatSaved', 'sinew', 'bone', 'damage'] as const).reduce(
    (total, part) => total + partGrams(sums, part),
    0,
  );
}
