/** Tables on their way into the book, as a window sees them. */
import type { Separator, SheetEncoding } from '../../core/sheet/text.ts';
import type { DateOrder, DecimalMark } from '../../core/sheet/values.ts';
import type { MassUnit } from './words.ts';
import type { Problem } from './problem.ts';

export type ImportKind = 'hunters' | 'animals' | 'weighings';
export type WordField = 'species' | 'sex' | 'age' | 'brought' | 'origin' | 'what' | 'pooling';

export type ImportField =
  | WordField
  | 'name' | 'phone' | 'email' | 'address' | 'licence'
  | 'oldNumber' | 'tag' | 'killDate' | 'killArea' | 'receivedOn' | 'releasedOn' | 'releasedTo' | 'condition' | 'damage'
  | 'live' | 'dressed' | 'received' | 'hanging' | 'wholeCuts' | 'trim' | 'fatSaved' | 'sinew' | 'bone' | 'cutAway'
  | 'takeHome' | 'packages'
  | 'ticket' | 'weight' | 'tare' | 'product' | 'note'; // prettier-ignore

/** How a table is to be read. */
export interface SheetLayout {
  encoding: SheetEncoding;
  separator: Separator;
  /** The row that holds the headings, counted from 1; 0: there are none. */
  headingRow: number;
  decimal: DecimalMark;
  dates: DateOrder;
  /** Of weights that carry no unit, neither in the cell nor in the heading. */
  unit: MassUnit;
  /** Which column holds a field, counted from 0. */
  columns: Record<string, number>;
  /** What a field says on every row, where no column holds it. */
  always: Record<string, string>;
  /** What a word of the table stands for, by field and folded word. */
  words: Record<string, Record<string, string>>;
}

export interface SheetProblem {
  /** As a spreadsheet counts it, from 1. */
  row: number;
  field: ImportField | null;
  problem: Problem;
}

/** A table as it would be read. */
export interface SheetPreview {
  name: string;
  bytes: number;
  layout: SheetLayout;
  headings: string[];
  /** Rows below the headings that are not empty. */
  rows: number;
  /** What would be written. `known`: hunters who are in the book already. */
  counts: { hunters: number; animals: number; weighings: number; none: number; known: number };
  fields: {
    code: ImportField;
    reads: 'text' | 'date' | 'weight' | 'word' | 'count';
    needed: boolean;
    /** Codes that a word may stand for. */
    values: string[];
  }[];
  first: { row: number; cells: { field: ImportField; text: string }[] }[];
  /** What must be mended first; the first 200. */
  problems: SheetProblem[];
  problemCount: number;
  /** What is unlikely but may be true; the first 200. */
  doubts: SheetProblem[];
  doubtCount: number;
  /** Words whose meaning the shop has to say; `key` is what a layout names them by. */
  unknown: { field: WordField; word: string; key: string; rows: number }[];
  /** The same file, brought in before. */
  twice: ImportedFile | null;
}

/** A file that was brought in. */
export interface ImportedFile {
  id: number;
  kind: ImportKind;
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
