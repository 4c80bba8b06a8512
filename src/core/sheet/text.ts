/** Decodes the bytes of a table file from another program: its encoding and its separator. */
import { ValidationError } from '../values/validation-error.ts';

export type SheetEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
export type Separator = ',' | ';' | '\t';

const SEPARATORS: readonly Separator[] = [',', ';', '\t'];
/** Size of the sample at the head of a file on which guesses are based. */
const SAMPLE_BYTES = 4096;
const SAMPLE_LINES = 30;
/** Magic numbers of a workbook, old (compound file) and new (zip), and of a PDF: no text. */
const NO_TEXT = [[0x50, 0x4b, 0x03, 0x04], [0xd0, 0xcf, 0x11, 0xe0], [0x25, 0x50, 0x44, 0x46]]; // prettier-ignore

/**
 * The encoding of a text file: by its byte order mark, else by its pattern of zero bytes (UTF-16 without a mark),
 * else UTF-8 if valid, else Windows-1252, the default of spreadsheets on Windows.
 * @throws ValidationError `sheet.empty`, `sheet.not-text` (a workbook or a PDF)
 */
export function guessEncoding(bytes: Uint8Array): SheetEncoding {
  if (bytes.length === 0) throw new ValidationError('sheet.empty');
  if (NO_TEXT.some((mark) => mark.every((byte, i) => bytes[i] === byte)))
    throw new ValidationError('sheet.not-text');
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const sample = bytes.subarray(0, SAMPLE_BYTES);
  const zeros = [0, 0];
  sample.forEach((byte, i) => (zeros[i % 2]! += byte === 0 ? 1 : 0));
  // Latin letters in UTF-16 are every other byte zero; a stray NUL in other text is not.
  if (zeros[1]! > sample.length / 6 && zeros[0]! < zeros[1]! / 4) return 'utf-16le';
  if (zeros[0]! > sample.length / 6 && zeros[1]! < zeros[0]! / 4) return 'utf-16be';
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return 'utf-8';
  } catch {
    return 'windows-1252';
  }
}

/** The text of a file, without a byte order mark. Undecodable bytes become �. */
export function decodeSheet(bytes: Uint8Array, encoding: SheetEncoding): string {
  return new TextDecoder(encoding).decode(bytes);
}

/**
 * The column separator: the one that splits the first rows into the most columns while most rows agree on their
 * number. Quoted text is ignored. A single column defaults to the comma.
 */
export function guessSeparator(text: string): Separator {
  const lines = firstLines(text);
  let best: { separator: Separator; score: number } = { separator: ',', score: 0 };
  for (const separator of SEPARATORS) {
    const counts = lines.map((line) => line.split(separator).length - 1);
    const common = mostCommon(counts.filter((n) => n > 0));
    const score = common * counts.filter((n) => n === common).length;
    if (score > best.score) best = { separator, score };
  }
  return best.separator;
}

function firstLines(text: string): string[] {
  return text
    .slice(0, SAMPLE_BYTES * 4)
    .replace(/"[^"]*"/g, '""')
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, SAMPLE_LINES);
}

function mostCommon(counts: readonly number[]): number {
  const times = new Map<number, number>();
  for (const n of counts) times.set(n, (times.get(n) ?? 0) + 1);
  return [...times].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0;
}
