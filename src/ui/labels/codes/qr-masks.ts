/** Fills the words into a QR code, under the mask that leaves the fewest misleading patterns. */

/** A dark module, a light one, or one that data fills. */
export type Module = boolean | null;

/** Which modules each of the eight masks inverts. */
const MASKS: readonly ((x: number, y: number) => boolean)[] = [
  (x, y) => (x + y) % 2 === 0,
  (_, y) => y % 2 === 0,
  (x) => x % 3 === 0,
  (x, y) => (x + y) % 3 === 0,
  (x, y) => (Math.floor(x / 3) + Math.floor(y / 2)) % 2 === 0,
  (x, y) => ((x * y) % 2) + ((x * y) % 3) === 0,
  (x, y) => (((x * y) % 2) + ((x * y) % 3)) % 2 === 0,
  (x, y) => (((x + y) % 2) + ((x * y) % 3)) % 2 === 0,
];
const LEVEL_H = 0b10;
/** A finder with its light border on one side, as a run of modules in a row or column. */
const FINDERS = ['00001011101', '10111010000'];

/** The filled code. Of equally good masks the first is chosen. */
export function masked(frame: readonly Module[][], words: readonly number[]): boolean[][] {
  const candidates = MASKS.map((_, mask) => filled(frame, words, mask));
  const faults = candidates.map(faultsOf);
  return candidates[faults.indexOf(Math.min(...faults))] ?? [];
}

function filled(frame: readonly Module[][], words: readonly number[], mask: number): boolean[][] {
  const edge = frame.length;
  const modules = frame.map((row) => row.map((module) => module ?? false));
  const set = (x: number, y: number, dark: boolean): void => {
    const row = modules[y];
    if (row) row[x] = dark;
  };
  let at = 0;
  // Pairs of columns from the right, up and down in turn; the timing line is left out.
  for (let pair = 0; pair < (edge - 1) / 2; pair++) {
    const right = edge - 1 - 2 * pair;
    for (let step = 0; step < edge; step++) {
      for (const x of right <= 6 ? [right - 1, right - 2] : [right, right - 1]) {
        const y = pair % 2 === 0 ? edge - 1 - step : step;
        if (frame[y]?.[x] !== null) continue;
        const bit = ((words[at >> 3] ?? 0) >>> (7 - (at % 8))) & 1;
        set(x, y, (bit === 1) !== MASKS[mask]?.(x, y));
        at++;
      }
    }
  }
  const format = formatOf(mask);
  for (const places of formatPlaces(edge))
    places.forEach(([x, y], bit) => set(x, y, ((format >>> bit) & 1) === 1));
  return modules;
}

/** Level and mask, with their own error correction. */
function formatOf(mask: number): number {
  const said = (LEVEL_H << 3) | mask;
  let rest = said;
  for (let i = 0; i < 10; i++) rest = (rest << 1) ^ ((rest >>> 9) * 0x537);
  return ((said << 10) | rest) ^ 0x5412;
}

/** Where the fifteen bits of the format stand, from the lowest; twice. */
export function formatPlaces(edge: number): (readonly [x: number, y: number])[][] {
  const bits = Array.from({ length: 15 }, (_, bit) => bit);
  return [
    bits.map((bit) => (bit < 8 ? [8, bit + Number(bit > 5)] : [bit === 8 ? 7 : 14 - bit, 8])),
    bits.map((bit) => (bit < 8 ? [edge - 1 - bit, 8] : [8, edge - 15 + bit])),
  ];
}

/** The points of ISO/IEC 18004, 7.8.3: runs, blocks, false finders, too much of one color. */
function faultsOf(modules: readonly boolean[][]): number {
  const edge = modules.length;
  const rows = modules.map((row) => row.map(Number).join(''));
  const columns = rows.map((_, x) => rows.map((row) => row[x]).join(''));
  let faults = 0;
  for (const line of [...rows, ...columns]) {
    for (const [run] of line.matchAll(/0{5,}|1{5,}/g)) faults += run.length - 2;
    for (let at = 0; at + 11 <= edge; at++) if (FINDERS.includes(line.slice(at, at + 11))) faults += 40;
  }
  for (let y = 1; y < edge; y++)
    for (let x = 1; x < edge; x++) {
      const four = [rows[y]?.[x], rows[y]?.[x - 1], rows[y - 1]?.[x], rows[y - 1]?.[x - 1]];
      if (four.every((module) => module === four[0])) faults += 3;
    }
  const dark = rows.join('').replaceAll('0', '').length / edge ** 2;
  return faults + 10 * Math.floor(Math.abs(dark * 100 - 50) / 5);
}
