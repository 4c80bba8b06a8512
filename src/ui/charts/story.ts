import type { ChartConfiguration, ChartType } from 'chart.js';
import type { ChartColours } from './drawing/colours.ts';
import type { Scene } from './drawing/scene.ts';

/** Fewer animals than this say little of what is usual, and every chart says so. Common practice, no source. */
export const FEW = 5;
/** Width of a chart on paper, in CSS pixels: what a card has between the margins of A4 and of Letter. */
export const PAPER_WIDTH = 640;
/** Dots to a pixel on paper: 96 pixels to the inch make 288 dots. */
export const PAPER_RATIO = 3;

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

/** What every chart says beside its picture. */
interface ChartText {
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
}

/** A chart that the drawing library plots. */
export interface PlotStory extends ChartText {
  /** Height of the drawing in pixels. */
  height: number;
  /** Null where there is nothing to draw: the finding then says so. */
  draw: ((colours: ChartColours) => ChartConfiguration<ChartType>) | null;
  /** The mark that was chosen in the drawing, as a link to follow; null where there is none. */
  linkOf?: (datasetIndex: number, index: number) => string | null;
  scene?: undefined;
}

/** A chart that is laid out shape by shape, for the width there is. */
export interface SceneStory extends ChartText {
  /** Null where there is nothing to draw: the finding then says so. */
  scene: ((colours: ChartColours, width: number) => Scene) | null;
  draw?: undefined;
  linkOf?: undefined;
}

/** One chart as a page shows it: what it says in words, how it is drawn, what stands behind it. */
export type ChartStory = PlotStory | SceneStory;

/** Whether there is a picture at all. */
export function hasPicture(story: ChartStory): boolean {
  return Boolean(story.scene ?? story.draw);
}
