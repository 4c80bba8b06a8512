import type { ChartConfiguration, ChartType } from 'chart.js';
import type { ChartColors } from './drawing/colors.ts';
import type { Scene } from './drawing/scene.ts';

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

/** The texts of every chart. */
interface ChartText {
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
}

/** A chart drawn by the chart library. */
export interface PlotStory extends ChartText {
  /** Height of the drawing in pixels. */
  height: number;
  /** Null without data: the finding then says so. */
  draw: ((colors: ChartColors) => ChartConfiguration<ChartType>) | null;
  /** The link of a clicked mark; null if there is none. */
  linkOf?: (datasetIndex: number, index: number) => string | null;
  scene?: undefined;
}

/** A chart laid out as shapes, for the available width. */
export interface SceneStory extends ChartText {
  /** Null without data: the finding then says so. */
  scene: ((colors: ChartColors, width: number) => Scene) | null;
  draw?: undefined;
  linkOf?: undefined;
}

/** One chart of a page: text, drawing and data. */
export type ChartStory = PlotStory | SceneStory;

/** Whether there is a picture. */
export function hasPicture(story: ChartStory): boolean {
  return Boolean(story.scene ?? story.draw);
}
