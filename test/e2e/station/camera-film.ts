/** A film of one still picture of a code, as Chromium takes it for what a camera sees (YUV4MPEG2). */
import { writeFileSync } from 'node:fs';
import bwip from 'bwip-js/node';

const WIDTH = 640;
const HEIGHT = 480;

/** Writes the film. The code is made by an independent package. */
export function filmCode(path: string, kind: 'qrcode' | 'code128', text: string): void {
  const light = Buffer.alloc(WIDTH * HEIGHT, 235);
  for (const [x, y, wide, high] of darkOf(kind, text))
    for (let row = y; row < y + high; row += 1) light.fill(16, row * WIDTH + x, row * WIDTH + x + wide);
  const color = Buffer.alloc((WIDTH * HEIGHT) / 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), light, color]);
  writeFileSync(
    path,
    Buffer.concat([
      Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420jpeg\n`),
      ...Array<Buffer>(10).fill(frame),
    ]),
  );
}

/** The dark rectangles: left, top, width and height in pixels. */
function darkOf(kind: 'qrcode' | 'code128', text: string): [number, number, number, number][] {
  const [code] = bwip.raw(kind, text, {});
  if (code && 'pixs' in code) {
    const side = 12;
    return [...code.pixs].flatMap((dark, at) =>
      dark
        ? [
            [100 + (at % code.pixx) * side, 60 + Math.floor(at / code.pixx) * side, side, side] as [
              number,
              number,
              number,
              number,
            ],
          ]
        : [],
    );
  }
  if (!code || !('sbs' in code)) throw new Error('The package made no code.');
  let left = 100;
  return [...code.sbs].flatMap((wide, at) => {
    const x = left;
    left += wide * 4;
    return at % 2 === 0 ? [[x, 160, wide * 4, 160] as [number, number, number, number]] : [];
  });
}
