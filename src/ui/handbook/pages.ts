/** The pages of the handbook, each for a place or a part of one. Their words: `src/words/LANGUAGE/handbook/pages.arb`. */
import grinder from '../../../resources/pictures/grinder.png';
import quote from '../../../resources/pictures/quote.png';
import rail from '../../../resources/pictures/rail.png';
import season from '../../../resources/pictures/season.png';
import table from '../../../resources/pictures/table.png';

/** `to` is the page of the window that it tells of, `picture` one of the demo season. */
export const handbookPages = {
  first: { to: '/shop', picture: null },
  rail: { to: '/rail', picture: rail },
  intake: { to: '/intake', picture: null },
  table: { to: '/table', picture: table },
  grinder: { to: '/grinder', picture: grinder },
  smokehouse: { to: '/smokehouse', picture: null },
  quote: { to: '/quote', picture: quote },
  pickup: { to: '/pickup', picture: null },
  till: { to: '/till', picture: null },
  season: { to: '/season', picture: season },
  books: { to: '/books', picture: null },
  shop: { to: '/shop', picture: null },
  stations: { to: '/shop?at=stations', picture: null },
  checkIn: { to: '/intake', picture: null },
} as const;

export type HandbookPage = keyof typeof handbookPages;

export const isHandbookPage = (code = ''): code is HandbookPage => Object.hasOwn(handbookPages, code);
