import { formatPlaces, masked, type Module } from './qr-masks.ts';
import { wordsOf, type QrSize } from './qr-words.ts';

/**
 * Versions 1 to 4 at level H: `blocks` equal blocks of `data` words, with `repair` words of error correction each.
 * (ISO/IEC 18004, table 9.)
 */
const SIZES: readonly QrSize[] = [
  { modules: 21, blocks: 1, data: 9, repair: 17 },
  { modules: 25, blocks: 1, data: 16, repair: 28 },
  { modules: 29, blocks: 2, data: 13, repair: 22 },
  { modules: 33, blocks: 4, data: 9, repair: 16 },
];

/**
 * The dark modules of the smallest QR code that holds `text`, row by row.
 * @throws RangeError for a text that version 4 does not hold, or with other than digits, capitals, space and `$%*+-./:` before a #
 * @example modulesOf('26-0147').length // 21
 */
export function modulesOf(text: string): boolean[][] {
  for (const size of SIZES) {
    const words = wordsOf(text, size);
    if (words) return masked(frameOf(size.modules), words);
  }
  throw new RangeError(`No QR code here holds ${text.length} characters.`);
}

/** Everything but the data: finders with their light borders, timing lines, the aligning square, room for the format. */
function frameOf(edge: number): Module[][] {
  const modules: Module[][] = Array.from({ length: edge }, () => Array<Module>(edge).fill(null));
  const set = (x: number, y: number, dark: boolean): void => {
    const row = modules[y];
    if (row && x >= 0 && x < edge) row[x] = dark;
  };
  const square = (middleX: number, middleY: number, reach: number, light: readonly number[]): void => {
    for (let dy = -reach; dy <= reach; dy++)
      for (let dx = -reach; dx <= reach; dx++)
        set(middleX + dx, middleY + dy, !light.includes(Math.max(Math.abs(dx), Math.abs(dy))));
  };
  for (let at = 0; at < edge; at++) {
    set(at, 6, at % 2 === 0);
    set(6, at, at % 2 === 0);
  }
  for (const [x, y] of [[3, 3], [edge - 4, 3], [3, edge - 4]] as const) square(x, y, 4, [2, 4]); // prettier-ignore
  if (edge > 21) square(edge - 7, edge - 7, 2, [1]);
  for (const [x, y] of formatPlaces(edge).flat()) set(x, y, false);
  set(8, edge - 8, true);
  return modules;
}
