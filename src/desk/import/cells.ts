/** Parses one row of a table: every field, and every problem in it. */
import { ValidationError } from '../../core/values/validation-error.ts';
import type { Reading } from '../../core/values/reading.ts';
import { readDay, readWeight } from '../../core/sheet/values.ts';
import type { MassUnit } from '../../core/values/units.ts';
import { hasControl } from '../input/input.ts';
import { ProblemError, type Problem } from '../contract/problem.ts';
import type { ImportField, ImportKind, SheetLayout, WordField } from '../contract/contract.ts';
import { FIELDS, folded, type FieldRule } from './fields.ts';
import { unitOfHeading } from './layout.ts';
import type { Dictionary } from './words.ts';

export interface RowValues {
  texts: Partial<Record<ImportField, string>>;
  weights: Partial<Record<ImportField, Reading>>;
  counts: Partial<Record<ImportField, number>>;
  /** Fields whose cell states that there was none. An empty cell states nothing. */
  none: ImportField[];
}

/** A problem or a doubt in one row. */
export interface RowProblem {
  row: number;
  field: ImportField | null;
  problem: Problem;
}

export interface CellReader {
  /** Parses the cells; problems are passed to `report`. */
  read(row: number, cells: readonly string[], report: (problem: RowProblem) => void): RowValues;
  /** Unrecognized words, with the rows that use them. */
  unknown: Map<string, { field: WordField; word: string; key: string; rows: number }>;
}

/** Common placeholders for an empty cell. */
const NOTHING = /^(-+|–|—|n\/?a|none|\?+)$/i;
const ZERO = /^0+([.,]0+)?\s*(lbs?|kgs?|oz|g)?$/i;
/** For a part, zero or this word states that there was none; for anything else it is a placeholder. */
const NONE = /^none$/i;
const MAX_PACKAGES = 10_000;
const MAX_WORDS = 100;
/** Longer than any field; bounds the work per cell. */
const MAX_CELL = 2000;

export function cellReader(
  kind: ImportKind,
  layout: SheetLayout,
  headings: readonly string[],
  known: Dictionary,
  thisYear: number,
): CellReader {
  const unknown: CellReader['unknown'] = new Map();
  const units = new Map<ImportField, MassUnit>();
  const rules = FIELDS[kind].filter(
    ({ code, needed }) => needed || layout.columns[code] !== undefined || layout.always[code],
  );
  for (const { code, reads } of rules)
    if (reads === 'weight')
      units.set(code, unitOfHeading(headings[layout.columns[code] ?? -1] ?? '') ?? layout.unit);

  // A needed field without a column is missing on every row; it is reported once.
  const missing = new Set(
    rules
      .filter(({ code, needed }) => needed && layout.columns[code] === undefined && !layout.always[code])
      .map(({ code }) => code),
  );
  let missingReported = false;

  function word(field: WordField, text: string): string {
    const key = folded(text);
    const meant = layout.words[field]?.[key] ?? known[field].get(key);
    if (meant !== undefined) return meant;
    const id = `${field} ${key}`;
    const seen = unknown.get(id) ?? { field, word: text.slice(0, 60), key, rows: 0 };
    seen.rows += 1;
    if (unknown.has(id) || unknown.size < MAX_WORDS) unknown.set(id, seen);
    throw new ProblemError('invalid', 'sheet.word', { with: { typed: text.slice(0, 60) } });
  }

  function take(rule: FieldRule, text: string, values: RowValues): void {
    const { code, reads } = rule;
    if (text.length > MAX_CELL)
      throw new ProblemError('invalid', 'text.too-long', { with: { most: MAX_CELL } });
    if (hasControl(text)) throw new ProblemError('invalid', 'text.control');
    if (reads === 'text') {
      if (text.length > (rule.most ?? 200))
        throw new ProblemError('invalid', 'text.too-long', { with: { most: rule.most ?? 200 } });
      values.texts[code] = text;
    } else if (reads === 'date') values.texts[code] = readDay(text, layout.dates, thisYear);
    else if (reads === 'word') values.texts[code] = word(code as WordField, text);
    else if (reads === 'weight') {
      if (rule.orNone && (ZERO.test(text) || NONE.test(text))) {
        values.none.push(code);
        return;
      }
      if (text.length > 60)
        throw new ProblemError('invalid', 'reading.unreadable', { with: { typed: text.slice(0, 60) } });
      // For a part, zero means none; the carcass itself needs a weight.
      if (!ZERO.test(text) || rule.needed)
        values.weights[code] = readWeight(text, units.get(code) ?? layout.unit, layout.decimal);
    } else {
      const count = /^\d{1,6}([.,]0+)?$/.test(text) ? parseInt(text, 10) : NaN;
      if (!(count >= 0 && count <= MAX_PACKAGES)) throw new ProblemError('invalid', 'count.range');
      if (count > 0) values.counts[code] = count;
    }
  }

  function read(row: number, cells: readonly string[], report: (problem: RowProblem) => void): RowValues {
    if (!missingReported)
      for (const field of missing)
        report({ row, field, problem: { kind: 'invalid', code: 'sheet.no-column' } });
    missingReported = true;
    const values: RowValues = { texts: {}, weights: {}, counts: {}, none: [] };
    for (const rule of rules) {
      const index = layout.columns[rule.code];
      const cell = index === undefined ? '' : (cells[index] ?? '').trim();
      const text =
        cell === '' || (rule.reads !== 'text' && NOTHING.test(cell) && !(rule.orNone && NONE.test(cell)))
          ? (layout.always[rule.code] ?? '')
          : cell;
      try {
        if (text !== '') take(rule, text, values);
        else if (rule.needed && !missing.has(rule.code)) throw new ProblemError('invalid', 'sheet.lacks');
      } catch (error) {
        report({ row, field: rule.code, problem: problemOf(error) });
      }
    }
    return values;
  }
  return { read, unknown };
}

/** @throws errors that are not problems of the table */
export function problemOf(error: unknown): Problem {
  if (error instanceof ProblemError) return error.problem;
  if (error instanceof ValidationError) return { kind: 'invalid', code: error.code, with: { ...error.with } };
  throw error;
}
