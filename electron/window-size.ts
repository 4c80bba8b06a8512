import { readFileSync, writeFileSync } from 'node:fs';

export interface WindowSize {
  width: number;
  height: number;
  maximized: boolean;
}

/** Fits the smallest laptop that we draw for. */
export const SMALLEST = { width: 1024, height: 680 };
const USUAL: WindowSize = { width: 1366, height: 860, maximized: false };

/** The size that the window had last time; the usual one when there is no note or it does not make sense. */
export function readWindowSize(file: string): WindowSize {
  try {
    const { width, height, maximized } = JSON.parse(readFileSync(file, 'utf8')) as Partial<WindowSize>;
    return sensible(width, SMALLEST.width) && sensible(height, SMALLEST.height)
      ? { width, height, maximized: maximized === true }
      : USUAL;
  } catch {
    return USUAL; // the first start, or a note that somebody else wrote
  }
}

/** Notes the size for next time. A disk that refuses costs the size, not the work. */
export function writeWindowSize(file: string, size: WindowSize): void {
  try {
    writeFileSync(file, JSON.stringify(size));
  } catch (error) {
    console.error('Gambrel: the window size was not noted.', error);
  }
}

function sensible(pixels: unknown, least: number): pixels is number {
  return Number.isInteger(pixels) && (pixels as number) >= least && (pixels as number) < 20_000;
}
