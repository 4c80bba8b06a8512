/** Passes over a whole table: one to check it, one to write it. */
import { decodeSheet, guessEncoding } from '../../core/sheet/text.ts';
import type { ImportedRange } from '../../book/records/imports.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { ImportKind, SheetLayout } from '../contract/contract.ts';
import { cellReader, type CellReader, type RowProblem, type RowValues } from './cells.ts';
import { importerFor } from './kinds.ts';
import { guessLayout, type Remembered } from './layout.ts';
import { eachRow, rowsOf } from '../input/rows.ts';
import type { Counts, Writing } from './row-importer.ts';
import { dictionary } from './words.ts';

/** Maximum number of problems listed; beyond it only their number. */
const MAX_LISTED = 200;
const FIRST_ROWS = 8;

export interface Sheet {
  text: string;
  layout: SheetLayout;
  headings: string[];
}

export interface Findings {
  rows: number;
  counts: Counts;
  problems: RowProblem[];
  problemCount: number;
  doubts: RowProblem[];
  doubtCount: number;
  /** The first rows as parsed. */
  first: { row: number; values: RowValues }[];
  unknown: CellReader['unknown'];
}

/** Opens a table with the chosen or guessed layout. @throws ValidationError `sheet.*` */
export function openSheet(
  session: Session,
  kind: ImportKind,
  bytes: Uint8Array,
  picked: SheetLayout | undefined,
  remembered: Remembered | null,
): Sheet {
  const encoding = picked?.encoding ?? guessEncoding(bytes);
  const text = decodeSheet(bytes, encoding);
  const layout = picked ?? guessLayout(kind, { text, encoding }, session.settings, remembered);
  const above = rowsOf(text, layout.separator, Math.max(1, layout.headingRow));
  const row = above.find(({ number }) => number === Math.max(1, layout.headingRow));
  const headings = (row?.cells ?? []).map(
    (cell, index) => (layout.headingRow > 0 && cell.trim()) || String(index + 1),
  );
  return { text, layout, headings: headings.map((heading) => heading.slice(0, 80)) };
}

/** Parses and checks every row without writing. @throws ValidationError `sheet.*`, as `eachRow` */
export function checkRows(session: Session, kind: ImportKind, sheet: Sheet): Findings {
  const found: Findings = {
    rows: 0,
    counts: { hunters: 0, animals: 0, weighings: 0, none: 0, known: 0 },
    problems: [],
    problemCount: 0,
    doubts: [],
    doubtCount: 0,
    first: [],
    unknown: new Map(),
  };
  const taker = importerFor(kind, session);
  const reader = readerOf(session, kind, sheet);
  found.unknown = reader.unknown;
  const report = (problem: RowProblem): void => {
    found.problemCount += 1;
    if (found.problems.length < MAX_LISTED) found.problems.push(problem);
  };
  const doubt = (problem: RowProblem): void => {
    found.doubtCount += 1;
    if (found.doubts.length < MAX_LISTED) found.doubts.push(problem);
  };
  eachRow(sheet.text, sheet.layout.separator, ({ number, cells }) => {
    if (number <= sheet.layout.headingRow) return;
    found.rows += 1;
    const values = reader.read(number, cells, report);
    taker.check(
      values,
      (field, { problem }) => report({ row: number, field, problem }),
      (field, { problem }) => doubt({ row: number, field, problem }),
      number,
    );
    const counts = taker.count(values);
    for (const key of Object.keys(counts) as (keyof Counts)[]) found.counts[key] += counts[key];
    if (found.first.length < FIRST_ROWS) found.first.push({ row: number, values });
  });
  return found;
}

/** Writes every row; requires a transaction, and `checkRows` without problems before. */
export function writeRows(
  session: Session,
  kind: ImportKind,
  sheet: Sheet,
  by: string,
): ImportedRange & { counts: Counts; at: string } {
  const ids = { hunter: span(), animal: span(), weighing: span(), partNone: span() };
  const counts: Counts = { hunters: 0, animals: 0, weighings: 0, none: 0, known: 0 };
  const writing: Writing = {
    at: session.now(),
    by,
    count: counts,
    hunter: (id) => ids.hunter.add(id),
    animal(id) {
      counts.animals += 1;
      ids.animal.add(id);
    },
    weighing(id) {
      counts.weighings += 1;
      ids.weighing.add(id);
    },
    partNone(id) {
      counts.none += 1;
      ids.partNone.add(id);
    },
  };
  const refuse = ({ row, problem }: RowProblem): never => {
    throw new ProblemError(problem.kind, problem.code, { with: { ...problem.with, row } });
  };
  return session.book.imports.inBulk(() => {
    const taker = importerFor(kind, session);
    const reader = readerOf(session, kind, sheet);
    eachRow(sheet.text, sheet.layout.separator, ({ number, cells }) => {
      if (number > sheet.layout.headingRow) taker.write(reader.read(number, cells, refuse), writing);
    });
    return {
      hunter_first: ids.hunter.first,
      hunter_last: ids.hunter.last,
      animal_first: ids.animal.first,
      animal_last: ids.animal.last,
      weighing_first: ids.weighing.first,
      weighing_last: ids.weighing.last,
      part_none_first: ids.partNone.first,
      part_none_last: ids.partNone.last,
      counts,
      at: writing.at,
    };
  });
}

function readerOf(session: Session, kind: ImportKind, { layout, headings }: Sheet): CellReader {
  return cellReader(
    kind,
    layout,
    headings,
    dictionary(session.species.all),
    Number(session.today().slice(0, 4)),
  );
}

/** First and last id of a kind. The transaction has no other writers, so the ids are consecutive. */
function span() {
  return {
    first: null as number | null,
    last: null as number | null,
    add(id: number): number {
      this.first ??= id;
      this.last = id;
      return id;
    },
  };
}
