/** The frame around a weight, and the status bytes that some scales send after it when polled. */
import { ValidationError } from '../values/validation-error.ts';

export interface ScaleStatus {
  readonly stable: boolean;
  readonly range: 'over' | 'under' | null;
}

/**
 * Reads a status line: two to four bytes 0x30 to 0x3f (a letter `S` may precede them, a parity bit may be set).
 * Bits from memory, and makers differ: in the first byte 1 is motion and 2 the centre of zero; in the second 1 is
 * under and 2 over the range. Any other bit counts as not stable: a guess would offer a weight in motion. Null: the
 * line is no status.
 * @example readStatus('00') // { stable: true, range: null }
 */
export function readStatus(line: string): ScaleStatus | null {
  const bytes = [...line.replace(/^S/, '')].map((byte) => byte.charCodeAt(0));
  if (bytes.length < 2 || bytes.length > 4 || bytes.some((byte) => (byte & 0x30) !== 0x30)) return null;
  const [first = 0, second = 0, ...rest] = bytes.map((byte) => byte & 0x0f);
  if (second & 0b0010) return { stable: false, range: 'over' };
  if (second & 0b0001) return { stable: false, range: 'under' };
  return { stable: (first & ~0b0010) === 0 && [second, ...rest].every((byte) => byte === 0), range: null };
}

/** SOH, STX, ETX and EOT: framing only. */
const FRAME = '\u0001\u0002\u0003\u0004';

/**
 * Splits a text, which may contain the control bytes of its frame, into the weight's line and the status after it.
 * @throws ValidationError `scale.empty`, `scale.noise` (bytes that are no text), `scale.unknown-word` (a second line
 *   that is no status)
 * @example partFrame('\n 18.62lb\r\n00\r') // { line: ' 18.62lb', status: { stable: true, range: null } }
 */
export function partFrame(text: string): { line: string; status: ScaleStatus | null } {
  const plain = [...text].map((character) => (FRAME.includes(character) ? '\n' : character)).join('');
  const [line, second, third] = plain.split(/[\r\n]+/).filter((one) => one.trim() !== '');
  if (line === undefined) throw new ValidationError('scale.empty', 'line');
  if (/[^\x20-\x7f]/.test(line)) throw new ValidationError('scale.noise', 'line');
  const status = second === undefined ? null : readStatus(second.trim());
  if ((second !== undefined && status === null) || third !== undefined)
    throw new ValidationError('scale.unknown-word', 'line', { line, word: (third ?? second ?? '').trim() });
  return { line, status };
}
