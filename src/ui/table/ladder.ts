import type { AnimalPage, CutPart } from '../../bridge/contract.ts';

/** One part as the ladder and its table show it: a letter and a colour, so that neither is needed alone. */
export interface PartStyle {
  letter: string;
  tone: string;
  /** Colour of the letter on the part. */
  ink: string;
}

export const partStyle: Readonly<Record<CutPart | 'packed', PartStyle>> = {
  'whole cuts': { letter: 'C', tone: '--part-lean', ink: '--on-lean' },
  trim: { letter: 'T', tone: '--part-trim', ink: '--on-trim' },
  'fat saved': { letter: 'F', tone: '--part-fat', ink: '--on-fat' },
  sinew: { letter: 'S', tone: '--part-sinew', ink: '--on-sinew' },
  bone: { letter: 'B', tone: '--part-bone', ink: '--on-bone' },
  damage: { letter: 'D', tone: '--part-damage', ink: '--on-damage' },
  packed: { letter: 'P', tone: '--part-lean', ink: '--on-lean' },
};

export interface Rung {
  key: CutPart | 'packed' | 'rest';
  x: number;
  width: number;
  grams: number;
}

interface Ladder {
  rungs: Rung[];
  /** Where the weight of the animal ends: the right edge, or inside the bar when the parts outweigh it. */
  baseAt: number;
  /** By how much the parts outweigh the animal, in grams; 0 when they do not. */
  overGrams: number;
}

/** Below this a difference is only the scale's rounding. */
const MIN_GRAMS = 1;

/** What of the weighed parts goes home; the rest of what goes home was only weighed in packages. */
const goesHome: readonly string[] = ['whole cuts', 'trim', 'fat saved'];

/**
 * The pieces that the bar is made of: parts weighed at the table, and what goes home without having been weighed
 * there (an animal cut in one go: only its packages are).
 */
export function ladderPieces(
  page: Pick<AnimalPage, 'ladder' | 'takeHomeGrams'>,
): { key: CutPart | 'packed'; grams: number }[] {
  const weighed = (page.ladder?.pieces ?? []).flatMap(({ part, grams }) =>
    part === 'rest' || part === 'primal' ? [] : [{ key: part, grams }],
  );
  const home = weighed.reduce((sum, { key, grams }) => sum + (goesHome.includes(key) ? grams : 0), 0);
  const packed = page.takeHomeGrams - home;
  return packed >= MIN_GRAMS ? [{ key: 'packed', grams: packed }, ...weighed] : weighed;
}

/**
 * Lays the pieces end to end along `width`. The bar is as long as the animal is heavy, or as the parts are, if
 * they outweigh it; then `baseAt` shows where the animal ends.
 * @example layLadder([{ key: 'bone', grams: 25 }], 100, 400)
 * // rungs: bone 0–100, rest 100–400; baseAt 400; overGrams 0
 */
export function layLadder(
  pieces: readonly { key: CutPart | 'packed'; grams: number }[],
  baseGrams: number,
  width: number,
): Ladder {
  const total = pieces.reduce((sum, { grams }) => sum + grams, 0);
  const longest = Math.max(baseGrams, total);
  if (!(longest > 0)) return { rungs: [], baseAt: width, overGrams: 0 };
  const scale = width / longest;
  const rungs: Rung[] = [];
  let x = 0;
  for (const { key, grams } of pieces) {
    rungs.push({ key, x, width: grams * scale, grams });
    x += grams * scale;
  }
  const rest = baseGrams - total;
  if (rest >= MIN_GRAMS) rungs.push({ key: 'rest', x, width: rest * scale, grams: rest });
  return { rungs, baseAt: baseGrams * scale, overGrams: rest <= -MIN_GRAMS ? -rest : 0 };
}
