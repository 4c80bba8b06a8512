/** The kinds of game that histories bring in: a usual hanging weight in grams, and the pieces that a deer's carcass has. */
export const TYPICAL: Readonly<Record<string, number>> = {
  elk: 150_000,
  'white-tail': 32_000,
  'mule-deer': 40_000,
};
export const PIECES = ['neck', 'shoulder', 'saddle', 'flank', 'haunch'] as const;
export const PAIRS: readonly string[] = ['shoulder', 'flank', 'haunch'];
