/** The places of the building, in the order that an animal meets them. */
export const places = [
  { code: 'rail', name: 'Rail' },
  { code: 'intake', name: 'Intake' },
  { code: 'table', name: 'Table' },
  { code: 'grinder', name: 'Grinder' },
  { code: 'quote', name: 'Quote' },
  { code: 'pickup', name: 'Pick-up' },
  { code: 'season', name: 'Season' },
  { code: 'books', name: 'Books' },
  { code: 'shop', name: 'Shop' },
] as const;
