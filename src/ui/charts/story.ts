import type { ChartConfiguration, ChartType } from 'chart.js';
import type { ChartColours } from './colours.ts';

/** A table of what a chart shows, for the eye (`rows`) and for a spreadsheet (`plain`, unformatted). */
export interface ChartTable {
  head: string[];
  rows: string[][];
  /** Where the first cell of each row leads. */
  links?: string[];
  /** Heads of `plain` where they differ from `head`. */
  plainHead?: string[];
  plain: (string | number | null)[][];
}

/** One chart as a page shows it: what it says in words, how it is drawn, what stands behind it. */
export interface ChartStory {
  title: string;
  /** What there is to see, in one or two sentences. */
  finding: string;
  /** How many animals or batches it rests on, in words. */
  n: string;
  /** How to read the marks. */
  notes: string[];
  /** Where what is shown beside the shop's own figures was published. */
  sources: string[];
  table: ChartTable;
  /** Name of a saved file, without its ending. */
  fileName: string;
  /** Height of the drawing in pixels. */
  height: number;
  /** Null where there is nothing to draw: the finding then says so. */
  draw: ((colours: ChartColours) => ChartConfiguration<ChartType>) | null;
  /** The mark that was chosen in the drawing, as a link to follow; null where there is none. */
  linkOf?: (datasetIndex: number, index: number) => string | null;
}
