/** The two container formats for an icon in several sizes, each a PNG. */
import { Buffer } from 'node:buffer';

/** A square picture: its edge in pixels and its PNG. */
export interface Picture {
  edge: number;
  png: Buffer;
}

/** Edge lengths that Windows uses; 256 is the maximum of the format. */
export const ICO_EDGES = [16, 24, 32, 48, 64, 128, 256];

/** Apple's picture types and the edge of each; "@2x" types have the edge in pixels. */
const ICNS_TYPES: readonly [string, number][] = [
  ['icp4', 16],
  ['icp5', 32],
  ['ic11', 32],
  ['ic12', 64],
  ['ic07', 128],
  ['ic13', 256],
  ['ic08', 256],
  ['ic14', 512],
  ['ic09', 512],
  ['ic10', 1024],
];
export const ICNS_EDGES = [...new Set(ICNS_TYPES.map(([, edge]) => edge))];

/**
 * A Windows icon: a head of 6 bytes, 16 bytes for each picture, the PNGs. Source: Microsoft, "Icons" (ICONDIR,
 * ICONDIRENTRY); PNG entries since Windows Vista. From memory.
 */
export function icoOf(pictures: readonly Picture[]): Buffer {
  const head = Buffer.alloc(6);
  head.writeUInt16LE(1, 2);
  head.writeUInt16LE(pictures.length, 4);
  let offset = 6 + 16 * pictures.length;
  const entries = pictures.map(({ edge, png }) => {
    const entry = Buffer.alloc(16);
    entry.writeUInt8(edge % 256, 0); // 256 is stored as 0
    entry.writeUInt8(edge % 256, 1);
    entry.writeUInt16LE(1, 4);
    entry.writeUInt16LE(32, 6);
    entry.writeUInt32LE(png.length, 8);
    entry.writeUInt32LE(offset, 12);
    offset += png.length;
    return entry;
  });
  return Buffer.concat([head, ...entries, ...pictures.map(({ png }) => png)]);
}

/**
 * An Apple icon: `icns` and its length, then type, length and PNG of each picture; lengths include their own 8
 * bytes. From memory of common descriptions; Apple publishes none.
 */
export function icnsOf(pictures: readonly Picture[]): Buffer {
  const parts = ICNS_TYPES.map(([type, edge]) => {
    const picture = pictures.find((one) => one.edge === edge);
    if (!picture) throw new Error(`There is no picture of ${edge} pixels`);
    return part(type, picture.png);
  });
  return part('icns', Buffer.concat(parts));
}

function part(type: string, content: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(type, 'latin1');
  head.writeUInt32BE(8 + content.length, 4);
  return Buffer.concat([head, content]);
}
