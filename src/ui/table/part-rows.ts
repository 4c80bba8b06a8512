import type { AnimalPage, CutPart } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';
import { words } from '../texts/en.ts';
import { ladderPieces, partLook, type PartLook } from './ladder.ts';

export interface PartRow {
  key: string;
  look: PartLook | null;
  name: string;
  /** Null while nothing of it was weighed. */
  grams: number | null;
  share: number | null;
  others: string;
  /** Outside of what 8 in 10 such animals give. */
  unusual: boolean;
}

/**
 * The ladder as a table: every part, weighed or not, with its share and what 8 in 10 such animals give; last the
 * rest that nothing explains yet.
 */
export function partRows(page: AnimalPage, format: Format): PartRow[] {
  const base = page.ladder?.baseGrams ?? null;
  const pieces = ladderPieces(page);
  const usual = (part: string) => page.expected.find((one) => one.part === part);
  const rows = pieces.some(({ key }) => key === 'packed')
    ? [row('packed', 'Packed to take home', usual('take-home'))]
    : (Object.keys(words.partLong) as CutPart[]).map((part) => row(part, words.partLong[part], usual(part)));
  return base === null ? rows : [...rows, restRow(page, base, pieces, format)];

  function row(
    key: CutPart | 'packed',
    name: string,
    range: { low: number; high: number } | undefined,
  ): PartRow {
    const grams = pieces.find((piece) => piece.key === key)?.grams ?? null;
    const share = grams === null || !base ? null : grams / base;
    return {
      key,
      look: partLook[key],
      name,
      grams,
      share,
      others: range ? format.shareRange(range.low, range.high) : '–',
      unusual: Boolean(range && share !== null && (share > range.high || share < range.low)),
    };
  }
}

function restRow(
  page: AnimalPage,
  base: number,
  pieces: ReturnType<typeof ladderPieces>,
  format: Format,
): PartRow {
  const rest = base - pieces.reduce((sum, { grams }) => sum + grams, 0);
  const shrink = page.expected.find(({ part }) => part === 'shrink');
  return {
    key: 'rest',
    look: null,
    name: nameOf(
      rest,
      pieces.some(({ key }) => key === 'packed'),
    ),
    grams: Math.abs(rest),
    share: Math.abs(rest) / base,
    others: shrink && rest >= 0 ? `shrink ${format.shareRange(shrink.low, shrink.high)}` : '',
    unusual: false,
  };
}

function nameOf(rest: number, packedOnly: boolean): string {
  if (rest < 0) return 'Weighed too much';
  return packedOnly ? 'Bone, sinew and shrink, not weighed' : 'Not yet explained';
}
