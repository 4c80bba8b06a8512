/** The glossary says what the catalogue says: one table that a butcher can correct, and that no message may leave behind. */
import { parse } from 'csv-parse/sync';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readCatalogue } from '../../src/words/compile/catalogue.ts';

type Column = 'en-US' | 'en-CA' | 'es' | 'fr-CA';
type Row = Record<Column | 'section' | 'concept' | 'doubt' | 'note' | 'used in', string>;

const WORDS = join(import.meta.dirname, '../../src/words');
const rows = parse<Row>(readFileSync(join(WORDS, 'glossary.csv'), 'utf8'), { columns: true });
const { languages } = readCatalogue(WORDS);
/** The catalogue's language for a column. en-CA says only what differs from en-US. */
const LANGUAGE: Record<Column, string> = {
  'en-US': 'en-US',
  'en-CA': 'en-CA',
  es: 'es-MX',
  'fr-CA': 'fr-CA',
};
const COLUMNS = Object.keys(LANGUAGE) as Column[];

/** The terms of a cell, without what stands in brackets. */
function termsOf(cell: string): string[] {
  return cell
    .replaceAll(/\([^)]*\)/g, '')
    .split(/[;,:/]/)
    .map((term) => term.trim().toLowerCase())
    .filter((term) => term !== '');
}

function messageOf(language: string, place: string): string {
  const [area = '', ...key] = place.split(':');
  const of = (code: string) => languages.get(code)?.get(area)?.entries.get(key.join(':'))?.text;
  return (of(language) ?? (language === 'en-CA' ? of('en-US') : undefined) ?? '').toLowerCase();
}

describe('every concept', () => {
  it('has a term in each language, and stands there once', () => {
    expect(rows.length).toBeGreaterThan(150);
    expect(rows.filter((row) => COLUMNS.some((column) => termsOf(row[column]).length === 0))).toEqual([]);
    expect(new Set(rows.map(({ section, concept }) => `${section} ${concept}`)).size).toBe(rows.length);
    expect(rows.filter(({ doubt }) => !['', 'ask'].includes(doubt))).toEqual([]);
  });

  it('is used in the program in most cases', () => {
    expect(rows.filter((row) => row['used in'] !== '').length).toBeGreaterThan(110);
  });
});

describe.each(COLUMNS)('the terms in %s', (column) => {
  it('are those of the messages that say them', () => {
    const wrong = rows.flatMap((row) => {
      const terms = termsOf(row[column]);
      return row['used in']
        .split('; ')
        .filter(
          (place) => place !== '' && !terms.some((term) => messageOf(LANGUAGE[column], place).includes(term)),
        )
        .map(
          (place) =>
            `${row.concept}: ${place} says “${messageOf(LANGUAGE[column], place)}”, the glossary ${row[column]}`,
        );
    });
    expect(wrong).toEqual([]);
  });
});
