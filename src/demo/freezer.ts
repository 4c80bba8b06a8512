/** Where packages lie in the freezer until they are fetched; somebody now and then forgets to write it down. */
import type { DemoAnimal } from './invented/animal.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS } from './invented/invention.ts';

/** Draws of places stand apart from those of the animal. */
const PLACES = 53;
const WRITTEN = 0.9;
const SHELVES = ['A', 'B', 'C', 'D'] as const;
const ROWS = [1, 6] as const;

/** All packages of an animal lie together; an empty text where nobody said where. */
export function freezerPlace({ season, number }: DemoAnimal): string {
  const draw = drawing(SEASONS.seed, season.season, number, PLACES);
  return season.mistakes && draw.maybe(WRITTEN) ? `Shelf ${draw.pick(SHELVES)}${draw.whole(...ROWS)}` : '';
}
