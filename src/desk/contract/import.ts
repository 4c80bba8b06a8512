/** Import of tables. */
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

/** How to read a table. */
export interface SheetLayout {
  encoding: SheetEncoding;
  separator: Separator;
  /** The row of the headings, counted from 1; 0: none. */
  headingRow: number;
  decimal: DecimalMark;
  dates: DateOrder;
  /** For weights without a unit in cell or heading. */
  unit: MassUnit;
  /** The column of each field, counted from 0. */
  columns: Record<string, number>;
  /** Constant values of fields without a column. */
  always: Record<string, string>;
  /** The meaning of the table's words, by field and folded word. */
  words: Record<string, Record<string, string>>;
}

export interface SheetProblem {
  /** As a spreadsheet counts. */
  row: number;
  field: ImportField | null;
  problem: Problem;
}

/** A preview of a table. */
export interface SheetPreview {
  name: string;
  bytes: number;
  layout: SheetLayout;
  headings: string[];
  /** Non-empty rows below the headings. */
  rows: number;
  /** What would be written. `known`: hunters already in the book. */
  counts: { hunters: number; animals: number; weighings: number; none: number; known: number };
  fields: {
    code: ImportField;
    reads: 'text' | 'date' | 'weight' | 'word' | 'count';
    needed: boolean;
    /** Codes that a word may mean. */
    values: string[];
  }[];
  first: { row: number; cells: { field: ImportField; text: string }[] }[];
  /** Errors that prevent the import; the first 200. */
  problems: SheetProblem[];
  problemCount: number;
  /** Unlikely values; the first 200. */
  doubts: SheetProblem[];
  doubtCount: number;
  /** Words whose meaning the shop has to choose; `key` is their key in the layout. */
  unknown: { field: WordField; word: string; key: string; rows: number }[];
  /** An earlier import of the same file. */
  twice: ImportedFile | null;
}

/** An imported file. */
export interface ImportedFile {
  id: number;
  kind: ImportKind;
  file: string;
  rows: number;
  hunters: number;
  animals: number;
  weighings: number;
  /** Parts stated as none in the file. */
  none: number;
  at: string;
  by: string;
  undoneAt: string | null;
}
