/** The pages of the handbook, each for a place or a part of one. Its words stand in the catalogue, under the same name. */
import type { text } from '../../words/compiled/window/handbook.ts';
import grinder from '../../../resources/pictures/grinder.png';
import quote from '../../../resources/pictures/quote.png';
import rail from '../../../resources/pictures/rail.png';
import season from '../../../resources/pictures/season.png';
import table from '../../../resources/pictures/table.png';

export type HandbookPage = keyof typeof text.page;

interface Line {
  /** The page of the window that it tells of. */
  to: string;
  /** A picture of the demo season. */
  picture?: string;
}

export const handbookPages = {
  first: { to: '/shop' },
  rail: { to: '/rail', picture: rail },
  intake: { to: '/intake' },
  table: { to: '/table', picture: table },
  grinder: { to: '/grinder', picture: grinder },
  quote: { to: '/quote', picture: quote },
  pickup: { to: '/pickup' },
  till: { to: '/till' },
  season: { to: '/season', picture: season },
  books: { to: '/books' },
  shop: { to: '/shop' },
} as const satisfies Record<HandbookPage, Line>;

export const isHandbookPage = (code: string): code is HandbookPage => Object.hasOwn(handbookPages, code);
