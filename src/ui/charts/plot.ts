/** What a chart shows, as plain data in the units of its axes: no colors, no pixels of the window, no chart library. */
import type { Paint, Tone } from './engine/paint.ts';

/** Amounts along a side, or with `names` one row or column for each name: the i-th at i. */
export interface Axis {
  min?: number;
  max?: number;
  /** Where the axis is labeled; by default at round values. */
  ticks?: readonly number[];
  written: (value: number) => string | string[];
  title?: string;
  names?: true;
  /** Labeled above the picture, for many rows. */
  above?: true;
  /** Names that are headings of those after them. */
  heading?: (value: number) => boolean;
}

/** How points look; size in CSS pixels. */
export interface Look {
  /** A dash lies, a bar stands: both are drawn in the color of their edge. */
  shape: 'circle' | 'rectRot' | 'triangle' | 'dash' | 'bar';
  size: number;
  paint: Paint;
  edge?: Tone;
}

export interface Bar {
  at: number;
  from: number;
  to: number;
  paint: Paint;
}

/** Drawn one over the other, in their order. */
export type Layer =
  | { kind: 'bars'; bars: readonly Bar[]; thick?: number; edge?: Tone; radius?: number }
  | { kind: 'points'; points: readonly { x: number; y: number; look: Look }[] }
  | {
      kind: 'line';
      /** Null where the line is interrupted. */
      points: readonly ({ x: number; y: number } | null)[];
      ink: Tone;
      width: number;
      dash?: readonly number[];
      /** Painted down to zero, or to the line before it. */
      fill?: { paint: Paint; to: 'zero' | 'before' };
    };

/** A text at a place of the axes, or at the edge of the picture, shifted by pixels. */
export interface Word {
  x: number | 'start' | 'end';
  y: number | 'top' | 'bottom';
  text: string;
  dx?: number;
  dy?: number;
  align?: 'left' | 'center' | 'right';
  tone?: Tone;
  bold?: true;
  size?: number;
  /** Left out where its bar, this long in units of the horizontal axis, is shorter than the text. */
  within?: number;
  /** Written instead of a text that is too long. */
  or?: string;
  /** Its ground, on a pattern. */
  plate?: Tone;
}

/** What can be pointed at and reached with the arrow keys. Without a range it reaches across the whole picture. */
export interface Mark {
  label: string;
  /** Empty where there is nothing to open. */
  link: string;
  x?: readonly [number, number];
  y?: readonly [number, number];
  /** One of many whose links are also in the table: it is no link of its own until the arrow keys come to it. */
  quiet?: true;
}

export interface Key {
  text: string;
  look: Look | Paint;
}

/** Layers on two axes. */
export interface AxisPlot {
  /** In CSS pixels. */
  height: number;
  marks?: readonly Mark[];
  words?: readonly Word[];
  /** Room around the axes for words, in CSS pixels. */
  room?: { left?: number; right?: number; top?: number; bottom?: number };
  x: Axis;
  y: Axis;
  /** Bars lie, one for each row. */
  lying?: true;
  layers: readonly Layer[];
  key?: readonly Key[];
}

/** A node of a flow; nodes of a column are below each other in their order. */
export interface FlowNode {
  key: string;
  column: number;
  paint: Paint;
  /** Lines beside it, the first one bold. */
  words: readonly string[];
  /** The second line is a figure to be read from afar. */
  large?: true;
  link: string;
}

/** Amounts that flow from node to node, on a scale of their own. */
export interface FlowPlot {
  /** In CSS pixels. */
  height: number;
  /** Lines above. */
  heading: readonly Pick<Word, 'text' | 'size' | 'bold' | 'tone'>[];
  nodes: readonly FlowNode[];
  flows: readonly { from: string; to: string; amount: number; paint: Paint }[];
}

export type Plot = AxisPlot | FlowPlot;
