import type { ProblemError } from '../contract/problem.ts';
import type { ImportField } from '../contract/contract.ts';
import type { RowValues } from './cells.ts';

/** How much a table holds. `known`: rows of hunters who are in the book already and stay as they are. */
export interface Counts {
  hunters: number;
  animals: number;
  weighings: number;
  /** Parts that the table says there were none of. */
  none: number;
  known: number;
}

/** What is being written: each new record is told, so that it can be found again. */
export interface Writing {
  at: string;
  by: string;
  count: Counts;
  hunter(id: number): number;
  animal(id: number): void;
  weighing(id: number): void;
  partNone(id: number): void;
}

type Tell = (field: ImportField, problem: ProblemError) => void;

/** What one kind of table does with a row: say what is wrong with it, count it, write it. */
export interface RowImporter {
  /** What is wrong (`tell`) and what is only unlikely (`doubt`) with a row whose cells could be read; `row` is its number. */
  check(values: RowValues, tell: Tell, doubt: Tell, row: number): void;
  count(values: RowValues): Counts;
  write(values: RowValues, writing: Writing): void;
}
