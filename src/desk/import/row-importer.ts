import type { ProblemError } from '../contract/problem.ts';
import type { ImportField } from '../contract/contract.ts';
import type { RowValues } from './cells.ts';

/** Row counts of a table. `known`: rows of hunters who are already in the book and do not change. */
export interface Counts {
  hunters: number;
  animals: number;
  weighings: number;
  /** Parts that the table states as none. */
  none: number;
  known: number;
}

/** Context of a write; each new record is reported, so that it can be undone. */
export interface Writing {
  at: string;
  by: string;
  count: Counts;
  hunter(id: number): number;
  animal(id: number): void;
  weighing(id: number): void;
  partNone(id: number): void;
}

type Report = (field: ImportField, problem: ProblemError) => void;

/** Handles the rows of one kind of table: checks, counts and writes them. */
export interface RowImporter {
  /** Reports what is wrong (`report`) or only unlikely (`doubt`) in a parsed row; `row` is its number. */
  check(values: RowValues, report: Report, doubt: Report, row: number): void;
  count(values: RowValues): Counts;
  write(values: RowValues, writing: Writing): void;
}
