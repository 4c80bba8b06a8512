/** The places of the window, in the order in which an animal passes them. */
export const places = [
  'rail',
  'intake',
  'table',
  'grinder',
  'smokehouse',
  'quote',
  'pickup',
  'season',
  'books',
  'shop',
] as const;
