/** Learns a scale's line format from one example. */
import { ValidationError } from '../values/validation-error.ts';
import { FILLED_FIELD, signedReading, type SignedReading } from './number.ts';
import { partFrame } from './status.ts';
import { meaningOf, piecesOf, unitOf, type Piece } from './words.ts';
import { MAX_DECIMALS } from '../values/reading-number.ts';
import type { MassUnit } from '../values/units.ts';

/** The format learned from one line; plain data that can be stored as JSON. */
export interface ScaleForm {
  /** Index of the weight among the line's numbers, from 0, and the count of numbers. */
  readonly number: number;
  readonly of: number;
  /** The words that identify the line, e.g. `['NET']`, without units and stability marks. */
  readonly words: readonly string[];
  /** Null: the unit follows the number. */
  readonly unit: MassUnit | null;
  /** Decimals of a number without a point; null: the number shows them. */
  readonly decimals: number | null;
  /** The digits that are the weight where they are part of a longer number: from, to, and its length. */
  readonly part: { readonly from: number; readonly to: number; readonly length: number } | null;
}

/** A range in a line: from the first marked character to the one after the last. */
export interface MarkedRange {
  readonly from: number;
  readonly to: number;
}

/**
 * Learns from one line in which a person marked the digits of the weight. `unit` and `decimals` supply what the
 * line does not state; a unit that follows the number is found.
 * @throws ValidationError `scale.mark` (no digits of one number are marked), `scale.no-unit`, `scale.decimals`,
 *   `scale.no-point`, `scale.noise`
 * @example learnForm('0042 001862 7', { from: 5, to: 11 }, 'lb', 2)
 *   // { number: 1, of: 3, words: [], unit: 'lb', decimals: 2, part: null }
 */
export function learnForm(
  exampleLine: string,
  marked: MarkedRange,
  unit: MassUnit | null = null,
  decimals: number | null = null,
): ScaleForm {
  if (decimals !== null && !(Number.isInteger(decimals) && decimals >= 0 && decimals <= MAX_DECIMALS))
    throw new ValidationError('scale.decimals', 'decimals', { decimals });
  const { line } = partFrame(exampleLine);
  const pieces = piecesOf(line);
  const numbers = numbersIn(pieces);
  const { from, to } = digitsMarked(line, marked, exampleLine.indexOf(line));
  const number = numbers.findIndex((one) => one.from <= from && to <= one.to);
  const piece = numbers[number];
  if (!piece || from >= to) throw new ValidationError('scale.mark', 'marked');
  if (unit === null && unitBehind(pieces, piece) === null)
    throw new ValidationError('scale.no-unit', 'unit', { line });
  const inside = { from: from - piece.from, to: to - piece.from, length: piece.text.length };
  const wholeNumber = /^0*$/.test(piece.text.slice(0, inside.from)) && inside.to === inside.length;
  const shown = wholeNumber ? piece.text : piece.text.slice(inside.from, inside.to);
  if (decimals === null && (wholeNumber ? FILLED_FIELD : /^\d+$/).test(shown))
    throw new ValidationError('scale.no-point', 'decimals', { line });
  return {
    number,
    of: numbers.length,
    words: wordsIn(pieces),
    unit,
    decimals: /[.,]/.test(shown) ? null : (decimals ?? 0),
    part: wholeNumber ? null : inside,
  };
}

/**
 * Reads a line in a learned format. @throws ValidationError `scale.form`, `scale.no-unit`, `scale.no-point`,
 * `reading.*`
 */
export function readByForm(line: string, form: ScaleForm): SignedReading {
  const pieces = piecesOf(line);
  const numbers = numbersIn(pieces);
  const piece = numbers[form.number];
  const same = wordsIn(pieces).join(' ') === form.words.join(' ');
  if (!piece || numbers.length !== form.of || !same)
    throw new ValidationError('scale.form', 'line', { line });
  if (form.part && piece.text.length !== form.part.length)
    throw new ValidationError('scale.form', 'line', { line });
  const shown = form.part ? piece.text.slice(form.part.from, form.part.to) : piece.text;
  const behind = unitBehind(pieces, piece);
  const unit = behind ?? form.unit;
  if (unit === null) throw new ValidationError('scale.no-unit', 'line', { line });
  if (form.decimals === null && unit !== 'g' && FILLED_FIELD.test(shown))
    throw new ValidationError('scale.no-point', 'line', { line });
  const sign = pieces[pieces.indexOf(piece) - 1]?.text === '-' ? -1 : 1;
  return signedReading(withPoint(shown, form.decimals), unit, sign);
}

/** Inserts the point that the line omits: `001862` with 2 decimals is `0018.62`. */
function withPoint(shown: string, decimals: number | null): string {
  if (!decimals || /[.,]/.test(shown)) return shown;
  const filled = shown.padStart(decimals + 1, '0');
  return `${filled.slice(0, -decimals)}.${filled.slice(-decimals)}`;
}

const numbersIn = (pieces: readonly Piece[]): Piece[] => pieces.filter(({ kind }) => kind === 'number');

/** Units and stability marks vary; all other words must stay the same. */
function wordsIn(pieces: readonly Piece[]): string[] {
  return pieces
    .filter(
      ({ kind, text }) => kind === 'word' && !unitOf(text) && !['stable', 'moving'].includes(meaningOf(text)),
    )
    .map(({ text }) => text);
}

function unitBehind(pieces: readonly Piece[], number: Piece): MassUnit | null {
  return unitOf(pieces[pieces.indexOf(number) + 1]?.text ?? '');
}

/** A mark by hand may include an extra space or sign; only its digits count. */
function digitsMarked(line: string, marked: MarkedRange, offset: number): MarkedRange {
  const from = Math.max(0, marked.from - offset);
  const text = line.slice(from, Math.max(from, marked.to - offset));
  const before = /^[\s+-]*/.exec(text)?.[0].length ?? 0;
  return { from: from + before, to: from + text.trimEnd().length };
}
