/** The words and marks that scales send around a weight, and the tokenizer of a line. */
import type { MassUnit } from '../values/units.ts';

/** Units as scales write them. `G` and `gr` are left out: they are as often "gross". */
const UNITS: Readonly<Record<string, MassUnit>> = {
  lb: 'lb', lbs: 'lb', LB: 'lb', LBS: 'lb', Lb: 'lb', Lbs: 'lb',
  oz: 'oz', OZ: 'oz', Oz: 'oz', ozs: 'oz',
  kg: 'kg', KG: 'kg', Kg: 'kg', kgs: 'kg',
  g: 'g',
}; // prettier-ignore

const STABLE = ['ST', 'S', 'STABLE'];
/** `D` (dynamic), `M` (motion) and a question mark are from memory. */
const MOVING = ['US', 'U', 'UNSTABLE', 'D', 'M', 'MOTION', '?'];
const GROSS = ['G', 'GS', 'GR', 'GROSS'];
const NET = ['N', 'NT', 'NET'];
const OVER = ['OL', 'OVER', 'OVERLOAD'];
const UNDER = ['UL', 'UNDER', 'UNDERLOAD'];

/** What a word says about the weight beside it; `other` for unknown words. */
export type Meaning = 'stable' | 'moving' | 'gross' | 'net' | 'over' | 'under' | 'other';

const MEANINGS: readonly (readonly [Meaning, readonly string[]])[] = [
  ['stable', STABLE],
  ['moving', MOVING],
  ['gross', GROSS],
  ['net', NET],
  ['over', OVER],
  ['under', UNDER],
];

/** @example meaningOf('us') // 'moving' */
export function meaningOf(word: string): Meaning {
  const upper = word.toUpperCase();
  return MEANINGS.find(([, words]) => words.includes(upper))?.[0] ?? 'other';
}

/** The unit that a word stands for, or null. @example unitOf('LB') // 'lb' */
export function unitOf(word: string): MassUnit | null {
  return Object.hasOwn(UNITS, word) ? (UNITS[word] ?? null) : null;
}

/** A token of a line with its position. Tokens are separated by spaces and separator marks. */
export interface Piece {
  kind: 'number' | 'word' | 'sign' | 'dashes' | 'mark';
  text: string;
  from: number;
  to: number;
}

const PIECE =
  /(?<number>\d+\.\d+|\d+,\d+(?!\d*\.\d)|\d+|(?<!\d)[.,]\d+(?!\d*\.\d))|(?<word>[A-Za-z]+|\?)|(?<dashes>-{3,}|(?:- ){2,}-|_{3,})|(?<sign>[+-])|(?<mark>[^\s.,;:=()])/g;

/**
 * A check character that some framed lines append to the unit. The exclusive-or of `S` or `U`, a sign, six digits
 * and `LB` or `KG` always falls in 0x70 to 0x7f, which distinguishes it from a word.
 */
const CHECKED_UNIT = /(?<=[\d\s](?:LB|KG))[p-\x7f]$/;

/**
 * Tokenizes a line. @example piecesOf('ST,GS,+ 18.62lb').map(({ text }) => text) // ['ST', 'GS', '+', '18.62',
 * 'lb']
 */
export function piecesOf(line: string): Piece[] {
  return [...line.replace(CHECKED_UNIT, '').matchAll(PIECE)].map((found) => {
    const [kind, text] = Object.entries(found.groups ?? {}).find(([, one]) => one !== undefined) ?? [];
    return {
      kind: kind as Piece['kind'],
      text: text ?? '',
      from: found.index,
      to: found.index + found[0].length,
    };
  });
}
