/** Tables on their way into the book, as a window sees them. */
import type { BringField, BringKind, WordField } from './bring/fields.ts';
import type { SheetLayout } from './bring/layout.ts';
import type { Problem } from './problem.ts';

export type { BringField, BringKind, SheetLayout, WordField };

export interface SheetProblem {
  /** As a spreadsheet counts it, from 1. */
  row: number;
  field: BringField | null;
  problem: Problem;
}

/** A table as it would be read. */
export interface SheetLook {
  name: string;
  bytes: number;
  layout: SheetLayout;
  headings: string[];
  /** Rows below the headings that are not empty. */
  rows: number;
  /** What would be written. `known`: hunters who are in the book already. */
  counts: { hunters: number; animals: number; weighings: number; none: number; known: number };
  fields: {
    code: BringField;
    reads: 'text' | 'date' | 'weight' | 'word' | 'count';
    needed: boolean;
    /** Codes that a word may stand for. */
    values: string[];
  }[];
  first: { row: number; cells: { field: BringField; text: string }[] }[];
  /** What must be mended first; the first 200. */
  problems: SheetProblem[];
  problemCount: number;
  /** What is unlikely but may be true; the first 200. */
  doubts: SheetProblem[];
  doubtCount: number;
  /** Words whose meaning the shop has to say; `key` is what a layout names them by. */
  unknown: { field: WordField; word: string; key: string; rows: number }[];
  /** The same file, brought in before. */
  twice: BroughtIn | null;
}

/** A file that was brought in. */
export interface BroughtIn {
  id: number;
  kind: BringKind;
  file: string;
  rows: number;
  hunters: number;
  animals: number;
  weighings: number;
  /** Parts that the file says there were none of. */
  none: number;
  at: string;
  by: string;
  undoneAt: string | null;
}
