import { bear } from './drawings/bear.ts';
import { bison } from './drawings/bison.ts';
import { boar } from './drawings/boar.ts';
import { cervid } from './drawings/cervid.ts';
import { pronghorn } from './drawings/pronghorn.ts';

/** Width and height of every drawing, in its own units; text is 12 of them high. */
export const BOX = { width: 420, height: 260 } as const;

export type Point = readonly [x: number, y: number];

/** What one primal covers: a closed path of the box, and where its words stand. */
export interface Region {
  code: string;
  path: string;
  /** The middle of its words. */
  at: Point;
  /** How wide a line of words may be there. */
  room: number;
  /** How many lines fit. */
  rows: number;
}

/** An animal as it stands, head to the left. Only the regions can be picked; the rest says which animal it is. */
export interface Drawing {
  regions: readonly Region[];
  /** Head, ears, lower legs and tail: closed paths, the far ones first. */
  rest: readonly string[];
  /** Horns, tusk, tuft: closed paths. */
  horns: readonly string[];
  /** Antlers and tail as thick lines. */
  beams: readonly string[];
  /** Bristles, mouth: thin lines. */
  hints: readonly string[];
  eye: Point;
}

const drawings: Readonly<Record<string, Drawing>> = { cervid, pronghorn, boar, bear, bison };

/** The drawing of a build of body (`species.body`), or none for a build that nobody has drawn. */
export function drawingOf(body: string): Drawing | undefined {
  return drawings[body];
}
