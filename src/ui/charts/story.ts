import type { Plot } from './plot.ts';

/** Below this number of animals the usual is uncertain, and every chart says so. Common practice, no source. */
export const FEW = 5;
/** A difference of fractions that is zero when written to a tenth of a point. */
export const NO_GAP = 0.0005;
/** Width of a chart on paper, in CSS pixels: the width of a card within the margins of A4 and of Letter. */
export const PAPER_WIDTH = 640;
/** Pixel ratio on paper: 96 pixels per inch give 288 dots. */
export const PAPER_RATIO = 3;

/** The data of a chart, formatted (`rows`) and for a spreadsheet (`plain`). */
export interface ChartTable {
  head: string[];
  rows: string[][];
  /** Links of the first cell of each row. */
  links?: string[];
  /** Headings of `plain` where they differ from `head`. */
  plainHead?: string[];
  plain: (string | number | null)[][];
}

/** A source: what is said of it, and after that its own words, which are in English. */
export interface Cited {
  said: string;
  published: string;
}

/** @example citedText({ said: 'Official.', published: 'A table' }) // 'Official. A table' */
export function citedText({ said, published }: Cited): string {
  return [said, published].filter(Boolean).join(' ');
}

/** One chart of a page: text, picture and data. The picture is one plot, or several side by side. */
export interface ChartStory {
  title: string;
  /** The finding, in one or two sentences. */
  finding: string;
  /** The number of animals or batches, in words. */
  n: string;
  /** How to read the marks. */
  notes: string[];
  /** Sources of published figures shown beside the shop's own. */
  sources: Cited[];
  table: ChartTable;
  /** Name of a saved file, without extension. */
  fileName: string;
  /** Empty without data: the finding then says so. */
  plots: readonly Plot[];
  /** The least width of a plot in CSS pixels, if several may be side by side. */
  least?: number;
}
