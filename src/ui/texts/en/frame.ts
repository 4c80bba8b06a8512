import { plural } from '../plural.ts';

/** Texts of the frame: rail, navigation, find, initials, demo. */
export const frameText = {
  placesLabel: 'Places',
  places: {
    rail: 'Rail',
    intake: 'Intake',
    table: 'Table',
    grinder: 'Grinder',
    quote: 'Quote',
    pickup: 'Pickup',
    season: 'Season',
    books: 'Books',
    shop: 'Shop',
  },

  rail: 'What hangs on the rail',
  railEmpty: 'Nothing hangs on the rail.',
  railMore: (n: number) => `${n} more on the rail`,
  moreShort: 'more',
  /** On the empty hook of an animal on the table. */
  onTableShort: 'cutting',
  noCooler: 'No cooler yet',
  placesTaken: (hanging: number, places: number) => `${hanging} of ${places}`,
  limit: (days: number) => `Limit: ${plural(days, 'day', 'days')}`,
  railOpen: 'Show the rail',
  railCount: (n: number) => plural(n, 'animal', 'animals'),
  ticket: (ticket: string) => `Ticket ${ticket}`,
  hung: (days: number) => (days === 0 ? 'in today' : `${plural(days, 'day', 'days')} hung`),
  /** On the tag itself, which has room for few letters. */
  hungShort: (days: number) => (days === 0 ? 'today' : `${days} d`),
  onHold: 'on hold',

  find: 'Find a ticket or a hunter',
  findShort: 'Find',
  foundNothing: (typed: string) => `Nothing found for “${typed}”.`,
  noTicket: (ticket: string) => `No ticket ${ticket} in the book.`,
  notATicket: (scanned: string) => `“${scanned}” is not a ticket number.`,

  who: 'Who is working?',
  whoNobody: 'Who?',
  whoOpens: (by: string) => (by === '' ? 'Who is working?' : `Who is working? Now ${by}`),
  whoNew: 'Someone new',
  initials: 'Initials',
  initialsHint: 'Two or three letters; they stand beside every weight.',
  name: 'Name',
  add: 'Add',
  cancel: 'Cancel',

  demo: 'Demo season',
  demoChip: 'Demo',
  demoSays: (day: string) => `A season of a made-up shop. Nothing here is kept. Today is ${day}.`,
  demoLeave: 'Leave the demo',

  /** In a window that did not open the other book itself. */
  demoOpened: 'The demo was opened in another window, so this window shows it too.',
  demoLeft: 'The demo was left in another window. This window shows your own book again.',
  openedAgain:
    'The book was opened again, perhaps from a backup, so this window started over. What was typed and not saved is gone.',
} as const;
