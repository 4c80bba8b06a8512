/** Learning by example where a scale has the weight in its line. */
import { ValidationError } from '../values/validation-error.ts';
import { FILLED_FIELD, signedReading, type SignedReading } from './number.ts';
import { partFrame } from './status.ts';
import { meaningOf, piecesOf, unitOf, type Piece } from './words.ts';
import { MAX_DECIMALS } from '../values/reading-number.ts';
import type { MassUnit } from '../values/units.ts';

/** What was learned from one line; plain data that can be kept as JSON. */
export interface ScaleForm {
  /** Which of the line's numbers is the weight, from 0, of how many. */
  readonly number: number;
  readonly of: number;
  /** The words that make the line what it is, e.g. `['NET']`, without units and marks of rest or motion. */
  readonly words: readonly string[];
  /** Null: the unit stands behind the number. */
  readonly unit: MassUnit | null;
  /** Decimals of a number that has no point; null: the number shows them. */
  readonly decimals: number | null;
  /** Where only some digits of a longer number are the weight: from, to, and the length of the whole. */
  readonly part: { readonly from: number; readonly to: number; readonly length: number } | null;
}

/** A place in a line: from the first marked character to the one behind the last. */
export interface Marked {
  readonly from: number;
  readonly to: number;
}

/**
 * Learns from one line in which a person marked the digits of the weight. `unit` and `decimals` are what the line
 * does not tell by itself; a unit that stands behind the number is found.
 * @throws ValidationError `scale.mark` (no digits of one number are marked), `scale.no-unit`, `scale.decimals`,
 *   `scale.no-point`, `scale.noise`
 * @example learnForm('0042 001862 7', { from: 5, to: 11 }, 'lb', 2)
 *   // { number: 1, of: 3, words: [], unit: 'lb', decimals: 2, part: null }
 */
export function learnForm(
  exampleLine: string,
  marked: Marked,
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

/** Reads a line by a learned form. @throws ValidationError `scale.form`, `scale.no-unit`, `scale.no-point`, `reading.*` */
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

/** Puts the point that the line leaves out: `001862` with 2 decimals is `0018.62`. */
function withPoint(shown: string, decimals: number | null): string {
  if (!decimals || /[.,]/.test(shown)) return shown;
  const filled = shown.padStart(decimals + 1, '0');
  return `${filled.slice(0, -decimals)}.${filled.slice(-decimals)}`;
}

const numbersIn = (pieces: readonly Piece[]): Piece[] => pieces.filter(({ kind }) => kind === 'number');

/** Units change with a key on the scale, and rest and motion come and go: all other words must stay the same. */
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

/** A marking by hand takes in a space or a sign too many; only what it holds of digits counts. */
function digitsMarked(line: string, marked: Marked, offset: number): Marked {
  const from = Math.max(0, marked.from - offset);
  const text = line.slice(from, Math.max(from, marked.to - offset));
  const before = /^[\s+-]*/.exec(text)?.[0].length ?? 0;
  return { from: from + before, to: from + text.trimEnd().length };
}
