/** The window's last bounds, and whether they are still on a screen. */
import { readNote, writeNote } from './note-file.ts';

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

interface WindowPlace {
  width: number;
  height: number;
  /** Absent where the window is to be centered. */
  x?: number;
  y?: number;
  maximized: boolean;
}

/** The smallest supported laptop. */
export const SMALLEST = { width: 1024, height: 680 };
const USUAL: WindowPlace = { width: 1366, height: 860, maximized: false };
/** The part of the upper edge that must be on a screen, pixels: enough to drag it with the mouse. */
const GRIP = { width: 200, height: 40 };

/**
 * The window's last bounds; the default size without a valid note, and centered when its upper edge would be outside
 * all screens, for example after one was disconnected.
 * @param screens the usable areas of the screens, in the same pixels
 */
export function readWindowPlace(file: string, screens: readonly Box[]): WindowPlace {
  const { width, height, x, y, maximized } = (readNote(file) ?? {}) as Partial<
    Record<keyof WindowPlace, unknown>
  >;
  if (!sensible(width, SMALLEST.width) || !sensible(height, SMALLEST.height)) return USUAL;
  const size = { width, height, maximized: maximized === true };
  const placed = sensible(x, -100_000) && sensible(y, -100_000);
  return placed && screens.some((screen) => holdsGrip(screen, { x, y, width, height }))
    ? { ...size, x, y }
    : size;
}

/** Stores the bounds for the next start. */
export function writeWindowPlace(file: string, place: WindowPlace): void {
  writeNote(file, place);
}

function holdsGrip(screen: Box, { x, y, width }: Box): boolean {
  const shared = Math.min(x + width, screen.x + screen.width) - Math.max(x, screen.x);
  return shared >= GRIP.width && y >= screen.y && y + GRIP.height <= screen.y + screen.height;
}

function sensible(pixels: unknown, least: number): pixels is number {
  return Number.isInteger(pixels) && (pixels as number) >= least && (pixels as number) < 20_000;
}
