/** Invented photographs, drawn by the program: a tag with its number, a carcass on the hook, a shot wound. */
import type { PhotoKind } from '../../trade/photo.ts';
import { drawing } from '../invented/draw.ts';
import { encodeJpeg, type Drawing } from './encode.ts';

const [WIDTH, HEIGHT] = [320, 240];
type Color = readonly [number, number, number];
/** A shape within its bounds. */
interface Layer {
  color: Color;
  x0: number;
  y0: number;
  x1: number;
  y1: number;
  isOval: boolean;
}

const WALL: Color = [196, 202, 204];
const CARD: Color = [244, 214, 96];
const INK: Color = [38, 36, 34];
const MEAT: Color = [142, 46, 44];
const FAT: Color = [226, 205, 178];
const BRUISE: Color = [74, 22, 38];
const PAPER: Color = [240, 238, 230];
/** Grain of the picture, steps of a color. */
const GRAIN = 9;

/** Which of seven strokes a digit has: top, upper left, upper right, middle, lower left, lower right, bottom. */
const DIGITS = ['1110111', '0010010', '1011101', '1011011', '0111010', '1101011', '1101111', '1010010', '1111111', '1111011']; // prettier-ignore

/** The picture of an animal: of its tag with its number, else one of three. */
export function pictureOf(kind: PhotoKind, number: number): Uint8Array<ArrayBuffer> {
  const which = kind === 'tag' ? number : Math.floor(number / 60) % 3;
  return encodeJpeg(painted({ tag, animal, damage, result }[kind](which), which));
}

function painted(layers: readonly Layer[], seed: number): Drawing {
  const draw = drawing(seed);
  const rgb = new Uint8ClampedArray(WIDTH * HEIGHT * 3);
  for (const layer of [box(WALL, 0, 0, WIDTH, HEIGHT), ...layers]) paint(rgb, layer);
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const grain = draw.between(-GRAIN, GRAIN) - Math.hypot(x - WIDTH / 2, y - HEIGHT / 2) / 8;
      const at = (y * WIDTH + x) * 3;
      for (let i = at; i < at + 3; i += 1) rgb[i] = (rgb[i] ?? 0) + grain;
    }
  return { width: WIDTH, height: HEIGHT, rgb };
}

function paint(rgb: Uint8ClampedArray, { color, isOval, x0, y0, x1, y1 }: Layer): void {
  const [cx, cy, rx, ry] = [(x0 + x1) / 2, (y0 + y1) / 2, (x1 - x0) / 2, (y1 - y0) / 2];
  for (let y = Math.max(0, y0); y < Math.min(HEIGHT, y1); y += 1)
    for (let x = Math.max(0, x0); x < Math.min(WIDTH, x1); x += 1)
      if (!isOval || ((x - cx) / rx) ** 2 + ((y - cy) / ry) ** 2 < 1) rgb.set(color, (y * WIDTH + x) * 3);
}

const box = (color: Color, x0: number, y0: number, x1: number, y1: number): Layer => ({
  color, x0, y0, x1, y1, isOval: false,
}); // prettier-ignore
const oval = (color: Color, cx: number, cy: number, rx: number, ry: number): Layer => ({
  color, x0: cx - rx, y0: cy - ry, x1: cx + rx, y1: cy + ry, isOval: true,
}); // prettier-ignore

function digit(value: number, x: number, y: number): Layer[] {
  const [w, h, t] = [30, 56, 7];
  const strokes = [
    box(INK, x, y, x + w, y + t),
    box(INK, x, y, x + t, y + h / 2),
    box(INK, x + w - t, y, x + w, y + h / 2),
    box(INK, x, y + 25, x + w, y + 31),
    box(INK, x, y + h / 2, x + t, y + h),
    box(INK, x + w - t, y + h / 2, x + w, y + h),
    box(INK, x, y + h - t, x + w, y + h),
  ];
  return strokes.filter((_, i) => DIGITS[value]?.[i] === '1');
}

function tag(number: number): Layer[] {
  const digits = [...String(10_000 + number)].map(Number);
  const bars = Array.from({ length: 26 }, (_, i) =>
    box(INK, 62 + i * 7, 158, 62 + i * 7 + 1 + ((number + i * i) % 5), 190),
  );
  return [
    box(CARD, 40, 36, 280, 208),
    oval(WALL, 160, 56, 9, 9),
    ...digits.flatMap((value, i) => digit(value, 62 + i * 42, 84)),
    ...bars,
  ];
}

function animal(which: number): Layer[] {
  const lean = which * 6;
  return [
    box([120, 124, 128], 0, 18, WIDTH, 26),
    box(INK, 158, 22, 162, 52),
    oval(MEAT, 160, 130, 46 + lean, 84),
    oval(MEAT, 128, 66, 13, 40),
    oval(MEAT, 192, 66, 13, 40),
    oval(FAT, 160, 128, 7, 70),
    ...[84, 104, 124, 144].flatMap((y) => [oval(FAT, 136, y, 17, 2), oval(FAT, 184, y, 17, 2)]),
  ];
}

function damage(which: number): Layer[] {
  const x = 120 + which * 30;
  return [
    box(MEAT, 0, 0, WIDTH, HEIGHT),
    oval(FAT, 60, 190, 90, 34),
    oval([104, 30, 40], x, 118, 74, 58),
    oval(BRUISE, x + 6, 116, 44, 36),
    oval(INK, x + 8, 116, 9, 8),
  ];
}

function result(which: number): Layer[] {
  const rows = Array.from({ length: 9 }, (_, i) =>
    box([120, 122, 126], 74, 74 + i * 13, 150 + ((which * 7 + i * 31) % 90), 78 + i * 13),
  );
  return [
    box(PAPER, 52, 20, 268, 226),
    box(INK, 74, 40, 190, 52),
    ...rows,
    oval([70, 120, 92], 222, 196, 18, 18),
  ];
}
