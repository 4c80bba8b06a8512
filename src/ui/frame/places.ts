import { frameText } from '../texts/en/frame.ts';

const { places: names } = frameText;

/** The places of the window, in the order in which an animal passes them. */
export const places = [
  { code: 'rail', name: names.rail },
  { code: 'intake', name: names.intake },
  { code: 'table', name: names.table },
  { code: 'grinder', name: names.grinder },
  { code: 'quote', name: names.quote },
  { code: 'pickup', name: names.pickup },
  { code: 'season', name: names.season },
  { code: 'books', name: names.books },
  { code: 'shop', name: names.shop },
] as const;
