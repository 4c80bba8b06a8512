import type { AnimalPage, CutPart } from '../../bridge/contract.ts';
import type { Format } from '../texts/format.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/ladder.ts';
import { partSaid, stageSaid } from '../texts/as-typed.ts';
import { ladderPieces, partStyle, type PartStyle } from './ladder.ts';

interface PartRow {
  key: string;
  style: PartStyle | null;
  name: string;
  /** Null if not weighed; 0 only if stated as none. */
  grams: number | null;
  /** As it was typed, where one weight says it. */
  said: string | undefined;
  share: number | null;
  others: string;
  /** The 80 % range of such animals, as shares. */
  range: { low: number; high: number } | null;
  /** Outside of that range. */
  off: 'above' | 'below' | null;
  /** The parts weigh more than the animal. */
  over: boolean;
}

/**
 * The ladder as a table: every part with its share and the 80 % range of such animals, and the unexplained rest last.
 */
export function partRows(page: AnimalPage, format: Format): PartRow[] {
  const base = page.ladder?.baseGrams ?? null;
  const pieces = ladderPieces(page);
  const usual = (part: string) => page.expected.find((one) => one.part === part);
  const inOneGo = pieces.some(({ key }) => key === 'packed');
  const names = { packed: text.packedLong, ...words.partLong };
  const shown = inOneGo ? pieces.map(({ key }) => key) : (Object.keys(words.partLong) as CutPart[]);
  // Packages alone are the take-home; beside trim they are a part of it without reference values.
  const rows = shown.map((key) =>
    row(key, names[key], usual(key === 'packed' && shown.length === 1 ? 'take-home' : key)),
  );
  return base === null ? rows : [...rows, restRow(page, base, pieces, format)];

  function row(
    key: CutPart | 'packed',
    name: string,
    range: { low: number; high: number } | undefined,
  ): PartRow {
    const none = page.none.some(({ part }) => part === key);
    const grams = pieces.find((piece) => piece.key === key)?.grams ?? (none ? 0 : null);
    const share = grams === null || !base ? null : grams / base;
    return {
      key,
      style: partStyle[key],
      name,
      grams,
      said: key === 'packed' ? undefined : partSaid(page, key, format.unit),
      share,
      others: range ? format.shareRange(range.low, range.high) : '',
      range: range ? { low: range.low, high: range.high } : null,
      off: range && share !== null ? offRange(share, range) : null,
      over: false,
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
    style: null,
    name: nameOf(
      rest,
      pieces.some(({ key }) => key === 'packed'),
    ),
    grams: Math.abs(rest),
    // Of an animal that nothing is weighed of yet, it is the whole weight.
    said: pieces.length === 0 && page.ladder ? stageSaid(page, page.ladder.base, format.unit) : undefined,
    share: Math.abs(rest) / base,
    others: shrink && rest >= 0 ? text.shrink({ range: format.shareRange(shrink.low, shrink.high) }) : '',
    range: null,
    off: null,
    over: rest < 0,
  };
}

function offRange(share: number, { low, high }: { low: number; high: number }): PartRow['off'] {
  if (share > high) return 'above';
  return share < low ? 'below' : null;
}

function nameOf(rest: number, inOneGo: boolean): string {
  if (rest < 0) return text.tooMuch;
  return inOneGo ? text.restInOneGo : text.rest;
}
