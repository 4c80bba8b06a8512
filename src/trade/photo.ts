/** What a photograph of an animal shows. */
export const PHOTO_KINDS = ['tag', 'animal', 'damage', 'result'] as const;
export type PhotoKind = (typeof PHOTO_KINDS)[number];

/** Pictures of papers: a hunter's name and numbers stand on them. */
export const OF_PAPERS: readonly PhotoKind[] = ['tag', 'result'];

/** Longest side of a photograph, pixels: the writing on a tag stays readable. Our choice, no source. */
export const MAX_PHOTO_SIDE = 1600;
/** Largest file of a photograph, bytes. Our choice, no source. */
export const MAX_PHOTO_BYTES = 500_000;
