/** Fits text into regions of the drawing: lines are broken, and cut if necessary, before they leave their region. */

/** Letter height and line height, in units of the drawing. */
export const LETTERS = 12;
export const LINE = 14;

/** Widths of our bold letters relative to their height, measured in a browser. */
const WIDTHS: readonly [RegExp, number][] = [
  [/[ijl., ':!]/, 0.3],
  [/[frt-]/, 0.37],
  [/[I1]/, 0.43],
  [/[mwMW¼½¾⅛…]/, 0.85],
  [/[A-Z]/, 0.68],
  [/\d/, 0.6],
];

function letterWidth(letter: string): number {
  return WIDTHS.find(([kind]) => kind.test(letter))?.[1] ?? 0.56;
}

/** Approximate width of a line of text, in units of the drawing. */
export function wordsWidth(text: string): number {
  return [...text].reduce((sum, letter) => sum + letterWidth(letter), 0) * LETTERS;
}

function cut(text: string, room: number): string {
  if (wordsWidth(text) <= room) return text;
  let fitting = text;
  while (fitting.length > 1 && wordsWidth(`${fitting}…`) > room) fitting = fitting.slice(0, -1).trimEnd();
  return `${fitting}…`;
}

/** Lines of whole words; a number stays with its unit. */
function broken(text: string, room: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/(?<![\d¼½¾⅛]) /).filter(Boolean)) {
    const longer = `${lines.at(-1) ?? ''} ${word}`.trim();
    if (lines.length > 0 && wordsWidth(longer) <= room) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

function named(text: string, room: number, rows: number): string[] {
  const lines = broken(text, room);
  if (lines.length > rows) lines.splice(rows - 1, lines.length, lines.slice(rows - 1).join(' '));
  return lines.map((line) => cut(line, room));
}

/** Drops excess lines as a whole: a truncated number would be wrong. */
function wrap(text: string, room: number, rows: number): string[] {
  return broken(text, room)
    .slice(0, rows)
    .map((line) => cut(line, room));
}

/**
 * The lines of a region: the primal's name, below it its fact with as many lines as are left, but at least one.
 * `mark` is room reserved beside the fact.
 * @example regionWords('Neck and jowl', '4.10 lb', 60, 3)
 * // { name: ['Neck and', 'jowl'], fact: ['4.10 lb'] }
 */
export function regionWords(
  name: string,
  fact: string,
  room: number,
  rows: number,
  mark = 0,
): { name: string[]; fact: string[] } {
  const above = named(name, room, fact ? rows - 1 : rows);
  return { name: above, fact: wrap(fact, room - mark, rows - above.length) };
}
