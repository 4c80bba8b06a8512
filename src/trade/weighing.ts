/** Terms of weighing: parts, stages and units. */

/** The units that a weight may be typed in. */
export const MASS_UNITS = ['lb', 'oz', 'kg', 'g'] as const;
export type MassUnit = (typeof MASS_UNITS)[number];

/** Parts weighed at the table. */
export const CUT_PARTS = ['whole cuts', 'trim', 'fat saved', 'sinew', 'bone', 'damage'] as const;
export type CutPart = (typeof CUT_PARTS)[number];

/** Parts that an animal may have none of. Meat is always weighed. */
export const NONE_PARTS = ['fat saved', 'sinew', 'bone', 'damage'] as const satisfies readonly CutPart[];
export type NonePart = (typeof NONE_PARTS)[number];

/** The step at which a weight is taken. */
export type WeighStage =
  | 'live'
  | 'dressed'
  | 'received'
  | 'hanging'
  | 'primal'
  | 'cut'
  | 'grinder'
  | 'packed';

/** Typed by hand, read off a scale or the practice scale, or imported from a file. */
export type WeighSource = 'typed' | 'scale' | 'practice' | 'import';
