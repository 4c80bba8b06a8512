/**
 * Parses what a scale sends as plain text: one line, one weight. The formats are those published in scale makers'
 * manuals in general terms; there is no open standard (OIML R 76 covers the instrument, not the line).
 */
import { ValidationError } from '../values/validation-error.ts';
import { readByForm, type ScaleForm } from './form.ts';
import { FILLED_FIELD, poundsOunces, signedReading, type SignedReading } from './number.ts';
import { partFrame } from './status.ts';
import { meaningOf, piecesOf, unitOf, type Meaning, type Piece } from './words.ts';

// Re-exports the other parts of the reader, so that a window imports one module.
export { learnForm, type ScaleForm } from './form.ts';
export { makeLineSplitter, type LineSplitter } from './split.ts';
export { isSteady, type SteadyRule, type TimedWeight } from './steady.ts';

/** A weight on the scale. `stable` is null where the line does not say. */
export interface ScaleWeight extends SignedReading {
  readonly overload: false;
  readonly stable: boolean | null;
  readonly basis: 'gross' | 'net' | null;
}

/** The load is outside the scale's range. */
export interface ScaleOverload {
  readonly overload: true;
  readonly range: 'over' | 'under';
  readonly stable: boolean | null;
}

export type ScaleLine = ScaleWeight | ScaleOverload;

/**
 * Parses one line, with or without a status line after it, by the general rules or in a learned format. A unit that
 * neither the line nor the format states is never guessed, nor is a decimal point in a field padded with zeros.
 * @throws ValidationError `scale.empty`, `scale.noise` (bytes that are no text), `scale.no-weight`, `scale.no-unit`,
 *   `scale.no-point` (`001862 lb`), `scale.ambiguous` (several numbers), `scale.unknown-word`, `scale.form` (not the
 *   learned form), `reading.ounces`, `reading.too-fine`, `reading.too-heavy`
 * @example parseScaleLine('US,GS,+  18.62lb')
 *   // { digits: 1862, decimals: 2, unit: 'lb', typed: '18.62 lb', sign: 1, stable: false, basis: 'gross', overload: false }
 */
export function parseScaleLine(text: string, form?: ScaleForm | null): ScaleLine {
  const { line, status } = partFrame(text);
  const pieces = piecesOf(line);
  const meanings = pieces
    .filter(({ kind, text: word }) => kind === 'word' && !unitOf(word))
    .map(({ text: word }) => meaningOf(word));
  const stable = meanings.includes('moving')
    ? false
    : (status?.stable ?? (meanings.includes('stable') ? true : null));
  const range = status?.range ?? rangeOf(meanings, pieces);
  if (range) return { overload: true, range, stable };
  const reading = form ? readByForm(line, form) : readAlone(line, pieces);
  const basis = meanings.includes('net') ? 'net' : meanings.includes('gross') ? 'gross' : null;
  return { ...reading, stable, basis, overload: false };
}

function rangeOf(meanings: readonly Meaning[], pieces: readonly Piece[]): 'over' | 'under' | null {
  const dashes = pieces.find(({ kind }) => kind === 'dashes');
  if (meanings.includes('under') || dashes?.text.startsWith('_')) return 'under';
  return meanings.includes('over') || dashes ? 'over' : null;
}

/** The only weight of a line in which every word is understood. */
function readAlone(line: string, pieces: readonly Piece[]): SignedReading {
  const numbers = pieces.flatMap(({ kind }, index) => (kind === 'number' ? [index] : []));
  const [at, second] = numbers;
  if (at === undefined) throw new ValidationError('scale.no-weight', 'line', { line });
  const sign = pieces[at - 1]?.text === '-' ? -1 : 1;
  const number = pieces[at]?.text ?? '';
  const unit = unitOf(pieces[at + 1]?.text ?? '');
  const ounces = unit === 'lb' && second === at + 2 && unitOf(pieces[at + 3]?.text ?? '') === 'oz';
  if (numbers.length > (ounces ? 2 : 1)) throw new ValidationError('scale.ambiguous', 'line', { line });
  refuseStrangers(line, pieces.slice(0, at), pieces.slice(at + (unit ? 2 : 1) + (ounces ? 2 : 0)));
  if (!unit) throw new ValidationError('scale.no-unit', 'line', { line });
  if (ounces) return poundsOunces(number, pieces[at + 2]?.text ?? '', sign);
  if (unit !== 'g' && FILLED_FIELD.test(number))
    throw new ValidationError('scale.no-point', 'line', { line });
  return signedReading(number, unit, sign);
}

/** An unknown word may mean a tare, a price or a count. */
function refuseStrangers(line: string, before: readonly Piece[], after: readonly Piece[]): void {
  const known = ({ kind, text }: Piece): boolean => kind === 'word' && meaningOf(text) !== 'other';
  const sign = before.at(-1)?.kind === 'sign' ? before.length - 1 : before.length;
  const stranger = [...before.slice(0, sign), ...after].find((piece) => !known(piece));
  if (stranger) throw new ValidationError('scale.unknown-word', 'line', { line, word: stranger.text });
}
