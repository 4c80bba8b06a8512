/** A book's text is read line by line, in time that grows with its length, and no line is longer than a row can be. */
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bookAsText } from '../../../src/book/text/book-as-text.ts';
import { bookFromText, type TextTrouble } from '../../../src/book/text/book-from-text.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { tempBookPath } from '../temp-book.ts';

const NOW = new Date('2026-11-20T10:00:00Z');
const SIGNS = 'deer 🦌 ';

/** A book's text with a setting of so many UTF-16 units in it, filled into another book. */
function filled(units: number): { trouble: TextTrouble | null; line: number; took: number; kept: unknown } {
  const path = tempBookPath();
  const book = openRecordBook(path, NOW, true);
  book.settings.put('long', 'long-here');
  const text = [...bookAsText(book.db)].join('');
  book.close();
  const long = SIGNS.repeat(Math.ceil(units / SIGNS.length)).slice(0, units);
  const textPath = join(dirname(path), 'book.json');
  writeFileSync(
    textPath,
    text.replace('long-here', () => long),
  );
  const other = join(dirname(path), 'other.gambrel');
  const started = performance.now();
  const trouble = bookFromText(textPath, other, NOW);
  const took = performance.now() - started;
  const line = text.slice(0, text.indexOf('long-here')).split('\n').length;
  if (trouble) return { trouble, line, took, kept: null };
  const again = openRecordBook(other, NOW, true);
  const kept = again.settings.all().long === long;
  again.close();
  return { trouble, line, took, kept };
}

describe('a line of a book taken out as text', () => {
  it('longer than what is read at once comes in whole, letters of several bytes and all', () => {
    expect(filled(3_500_001)).toMatchObject({ trouble: null, kept: true });
  });

  it('longer than any row is refused by its number, however long it goes on', () => {
    const { trouble, line, took } = filled(60_000_000);
    expect(trouble).toEqual({ wrong: 'row', line });
    // Two and a half seconds before; the limit leaves room for a busy computer.
    expect(took).toBeLessThan(2000);
  }, 60_000);

  it('that is the first of the file is no book of ours', () => {
    const path = join(dirname(tempBookPath()), 'book.json');
    writeFileSync(path, 'x'.repeat(20_000_000));
    expect(bookFromText(path, `${path}.gambrel`, NOW)).toEqual({ wrong: 'format', line: 1 });
  });
});
