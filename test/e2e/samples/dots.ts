import { PNG } from 'pngjs';

/** A part of a picture, in CSS pixels; pictures have one dot for each. */
interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** A difference in lightness, of 255, that no eye sees. */
const SLIGHT = 12;

/** A picture as it is stored: in gray, for its colors are in the words beside it, and a quarter as large. */
export function inGray(picture: PNG, deflateLevel = 9): Buffer {
  return PNG.sync.write(picture, { colorType: 0, deflateLevel, deflateStrategy: 0, filterType: 0 });
}

/** A picture and the place of a group in it. */
export interface Framed {
  picture: PNG;
  box: Box;
}

/** The share of the dots of a group that differ visibly between two gray pictures; all if its size changed. */
export function differingShare(before: Framed, now: Framed): number {
  const { width, height } = now.box;
  if (before.box.width !== width || before.box.height !== height) return 1;
  const at = ({ picture, box }: Framed, x: number, y: number): number =>
    picture.data[((box.y + y) * picture.width + box.x + x) * 4] ?? 0;
  let off = 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) if (Math.abs(at(before, x, y) - at(now, x, y)) > SLIGHT) off++;
  return off / (width * height);
}
