import type { AnimalPage, CutPart } from '../../bridge/contract.ts';

/** A part in the ladder and its table: a letter and a color, so that either identifies it. */
export interface PartStyle {
  letter: string;
  tone: string;
  /** Color of the letter on the part. */
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
  /** As it was typed, where one weight says it. */
  said?: string | undefined;
}

interface Ladder {
  rungs: Rung[];
  /** The position of the animal's weight: the right edge, or inside the bar if the parts exceed it. */
  baseAt: number;
  /** The excess of the parts over the animal, in grams; 0 if none. */
  overGrams: number;
}

/** A smaller difference is rounding of the scale. */
const MIN_GRAMS = 1;

/** The take-home parts that were weighed; other take-home was weighed in packages only. */
const goesHome: readonly string[] = ['whole cuts', 'trim', 'fat saved'];

/**
 * The pieces of the bar: parts weighed at the table, and take-home known from packages only (of an animal cut in one
 * go).
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
 * Lays the pieces out along `width`. The bar represents the weight of the animal or, if greater, of the parts;
 * `baseAt` then marks the weight of the animal.
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
