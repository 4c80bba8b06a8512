/** Freezer places of packages until pickup; sometimes none is entered. */
import type { DemoAnimal } from './invented/animal.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS } from './invented/invention.ts';

/** A separate random stream for places. */
const PLACES = 53;
const WRITTEN = 0.9;
const SHELVES = ['A', 'B', 'C', 'D'] as const;
const ROWS = [1, 6] as const;

/** All packages of an animal share one place; an empty text if none was entered. */
export function freezerPlace({ season, number }: DemoAnimal): string {
  const draw = drawing(SEASONS.seed, season.season, number, PLACES);
  return season.mistakes && draw.maybe(WRITTEN) ? `Shelf ${draw.pick(SHELVES)}${draw.whole(...ROWS)}` : '';
}
