import type { Brought } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

/** Texts of the Rail: what is next, what hangs where, and temperatures. */
export const railText = {
  counts: 'Counts of the day',
  countOf: {
    hanging: 'on the rail',
    cutting: 'on the table',
    trim: 'with trim to grind',
    packing: 'being packed',
    ready: 'ready for pickup',
  },
  onRail: 'On the rail, in cutting order',
  onRailByDays: 'On the rail, longest hung first',
  inCutOrder: 'Sort by cutting order',
  byDays: 'Sort by days',
  select: 'Select',
  selectNone: 'Done selecting',

  next: 'Next to cut',
  nothingNext: 'Nothing on the rail can be cut now.',
  hungOver: (days: number, limit: number) => `hung ${plural(days, 'day', 'days')}, the limit is ${limit}`,
  promised: (day: string) => `promised for ${day}`,
  promisedToday: 'promised for today',
  promisedPast: (day: string) => `was promised for ${day}`,
  lastDay: (days: number) => `hung ${plural(days, 'day', 'days')}: today is its last`,
  lastEve: (days: number) => `hung ${plural(days, 'day', 'days')}: tomorrow is its last`,
  ready: (days: number) => `hung ${plural(days, 'day', 'days')}, long enough`,
  light: (days: number) =>
    `hung ${plural(days, 'day', 'days')}, and a lighter one dries faster than a heavier`,
  oldest: (days: number) =>
    days === 0 ? 'came in today' : `hung ${plural(days, 'day', 'days')}, the longest of the rest`,
  toTable: 'Take to the table',
  byItself: 'on hold: cut by itself',
  fromRail: 'From the rail, in the order of cutting',

  hooks: 'Animals on the rail',
  ticket: 'Ticket',
  animal: 'Animal',
  weight: 'Weight',
  hungDays: (n: number) => plural(n, 'day', 'days'),
  days: 'Hung',
  state: 'Status',
  promisedOn: 'Promised',
  papers: 'Papers',
  cameAs: {
    whole: 'whole',
    skinned: 'skinned',
    quarters: 'as quarters',
    primals: 'in part',
    boned: 'boneless',
  } satisfies Record<Brought, string>,
  where: 'Hangs in',
  pick: (ticket: string) => `Pick ${ticket}`,
  picked: 'Picked',

  hang: 'Hang in a cooler',
  hangPicked: (n: number) => `Hang ${n} in a cooler`,
  tickets: 'Tickets',
  ticketsHint: 'Their numbers, with spaces between: 155 156 160.',
  noSuchTicket: (numbers: string) => `${numbers}: no such ticket hangs or lies on the table.`,
  noTickets: 'Type the number of at least one ticket.',
  inCooler: 'Cooler',
  room: (hanging: number, places: number) => `${hanging} of ${plural(places, 'place', 'places')} taken`,
  place: 'Place',
  placeHint: 'Hook, row or rail; leave empty if it does not matter.',
  hung: (n: number, cooler: string) => `${plural(n, 'animal hangs', 'animals hang')} in ${cooler} now.`,
  tooFull: (cooler: string, places: number, hanging: number) =>
    `${cooler} has ${plural(places, 'place', 'places')}, and ${hanging} hang in it.`,
  cancel: 'Cancel',

  coolers: 'Coolers',
  toShop: 'Shop',
  overFull: 'fuller than it has places',
  neverRead: 'No temperature reading yet.',
  lastRead: (when: string) => `read ${when}`,
  above: 'too warm now',
  wasWarm: (cooler: string, limit: string, span: string) =>
    `${cooler} was above ${limit} for ${span} in the last three days.`,
  warmNow: (cooler: string, limit: string, temperature: string, span: string | null) =>
    `${cooler} is at ${temperature}, above the limit of ${limit}${span ? `, and was above it for ${span} in the last three days` : ''}.`,
  warmDo:
    'Do not judge the meat by smell or looks. Measure it: what was above 40°F (4.4°C) for more than 2 hours is put on hold, and your inspector is asked.',
  gap: (cooler: string, span: string) =>
    `${cooler}: no reading for ${span}, so the temperature in between is unknown.`,
  reading: (cooler: string) => `Temperature of ${cooler} now`,
  readingShort: 'Now',
  saveReading: 'Save',
  saved: (temperature: string, cooler: string) => `${temperature} saved for ${cooler}.`,
  readings: (cooler: string) => `${cooler}: last readings`,
  readingAt: (temperature: string, when: string) => `${temperature}, ${when}`,
  void: 'Void',
  voidOf: (reading: string) => `Void ${reading}`,
  voidQuestion: (reading: string, cooler: string) => `Void ${reading} of ${cooler}?`,
  readingGone: (reading: string) => `Voided ${reading}.`,
  why: 'Why',
  whys: { mistyped: 'Mistyped', otherCooler: 'Wrong cooler', other: 'Other' },
  /** Stored in the book as shown here, beside the voided reading. */
  reasons: { mistyped: 'mistyped', otherCooler: 'wrong cooler' },
  reason: 'Reason',
  leaveIt: 'Cancel',
  minutes: (n: number) => plural(n, 'minute', 'minutes'),
  hours: (h: number, min: number) =>
    min === 0 ? plural(h, 'hour', 'hours') : `${plural(h, 'hour', 'hours')} ${min} min`,

  noCoolers: 'No coolers yet.',
  coolersHint: 'Add coolers, and the Rail shows what hangs where and how cold it is.',
  coolerName: 'Name',
  coolerPlaces: 'Places',
  placesProblem: 'Type how many animals can hang in it, a whole number from 1.',
  addCooler: 'Add a cooler',
  changeCooler: 'Edit',
  changeOf: (name: string) => `Edit ${name}`,
  archive: 'Archive',
  gone: (name: string) => `${name} is not in use any more.`,
  saveCooler: 'Save',
  coolerSaved: (name: string) => `${name} is saved.`,
};

/** A duration: `40 minutes`, `3 hours 10 min`. */
export function spanText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return railText.minutes(whole);
  return railText.hours(Math.floor(whole / 60), whole % 60);
}
