/** Where the window stood last time, and whether it can stand there now. */
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
  /** Missing where the window is to be put in the middle. */
  x?: number;
  y?: number;
  maximized: boolean;
}

/** Fits the smallest laptop that we draw for. */
export const SMALLEST = { width: 1024, height: 680 };
const USUAL: WindowPlace = { width: 1366, height: 860, maximized: false };
/** So much of the upper edge must be on a screen, pixels: enough to take hold of it with the mouse. */
const GRIP = { width: 200, height: 40 };

/**
 * The place that the window had last time; the usual size when there is no note or it does not make sense, and the
 * middle when its upper edge would lie outside all screens, as after one was unplugged.
 * @param screens the areas of the screens that windows may use, in the same pixels
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

/** Notes the place for next time. */
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
