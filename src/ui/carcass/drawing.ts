/** A drawing of a carcass, as its file in `drawings` has it. */

/** Width and height of every drawing, in its own units; text is 12 of them high. */
export const BOX = { width: 420, height: 260 } as const;

export type Point = readonly [x: number, y: number];

/** The region of one primal: a closed path of the box, and the position of its text. */
export interface Region {
  code: string;
  path: string;
  /** Center of its text. */
  at: Point;
  /** Maximum width of a line of text there. */
  room: number;
  /** Number of lines that fit. */
  rows: number;
}

/** A standing animal, head to the left. Only the regions are interactive; the rest identifies the animal. */
export interface Drawing {
  regions: readonly Region[];
  /** Head, ears, lower legs and tail: closed paths, farthest first. */
  rest: readonly string[];
  /** Horns, tusk, tuft: closed paths. */
  horns: readonly string[];
  /** Antlers and tail as thick lines. */
  beams: readonly string[];
  /** Bristles, mouth: thin lines. */
  hints: readonly string[];
  eye: Point;
}

/**
 * Parses a file of `drawings`: a group of paths for each kind of line, and `data-` attributes for the text of a
 * region.
 */
export function readDrawing(file: string): Drawing {
  const svg = new DOMParser().parseFromString(file, 'image/svg+xml');
  const pathsOf = (group: string): SVGPathElement[] => [
    ...svg.querySelectorAll<SVGPathElement>(`#${group} > path`),
  ];
  const linesOf = (group: string): string[] => pathsOf(group).map((path) => path.getAttribute('d') ?? '');
  const eye = svg.querySelector('#eye');
  return {
    regions: pathsOf('regions').map((path) => {
      const [x = 0, y = 0] = (path.dataset.at ?? '').split(' ').map(Number);
      return {
        code: path.id,
        path: path.getAttribute('d') ?? '',
        at: [x, y],
        room: Number(path.dataset.room),
        rows: Number(path.dataset.rows),
      };
    }),
    rest: linesOf('rest'),
    horns: linesOf('horns'),
    beams: linesOf('beams'),
    hints: linesOf('hints'),
    eye: [Number(eye?.getAttribute('cx')), Number(eye?.getAttribute('cy'))],
  };
}
