import { plural } from '../../plural.ts';

const animals = (n: number) => plural(n, 'animal', 'animals');
const days = (n: number) => plural(n, 'day', 'days');
const weekdays = [
  'Sundays',
  'Mondays',
  'Tuesdays',
  'Wednesdays',
  'Thursdays',
  'Fridays',
  'Saturdays',
] as const;

/** Texts of the season's flow. Amounts are already formatted. */
export const flowText = {
  empty: (season: number) => `No animal was taken in under this choice in the ${season} season.`,
  emptyHow: 'With the first animal that is taken in, its days on the rail are drawn here.',
  day: 'Day',
  taken: 'Taken in',
  hanging: 'Hanging at the end of the day',
  ready: 'Became ready',
  weekdays,

  backlogTitle: 'What waits',
  backlogNone: 'Nothing waits: every animal is cut and every pound of trim is ground.',
  backlogNoneKilo: 'Nothing waits: every animal is cut and every kilogram of trim is ground.',
  toCut: (n: number) => `${n === 1 ? 'animal' : 'animals'} to cut`,
  cutHours: 'hours of cutting',
  trim: 'trim to grind',
  grindHours: 'hours of grinding',
  backlog: (n: number, mass: string, hours: string) =>
    `${animals(n)} ${n === 1 ? 'waits' : 'wait'} to be cut, ${mass} on the hook: about ${hours} h at the Table for one cutter.`,
  backlogUnweighed: (n: number) =>
    `${n} of them ${n === 1 ? 'is' : 'are'} not weighed yet and ${n === 1 ? 'counts' : 'count'} as the usual one of its kind.`,
  backlogTrim: (mass: string, hours: string) => `${mass} of trim waits for the grinder, about ${hours} h.`,
  exampleMinutes: 'The minutes are made up so far; type your own under Costs and prices.',
  ownMinutes: 'By your own minutes of cutting and grinding.',
  toMinutes: 'Costs and prices',
  fatShort: (fats: string) => `Fat to order: ${fats}.`,
  fatEnough: 'No fat needs to be ordered for the animals in the shop.',
  toFat: 'Fat on hand and what is needed',

  intakeTitle: 'Intake by day',
  nAnimals: (n: number, over: number) => `n = ${animals(n)} in ${days(over)}`,
  intakeOne: (n: number, day: string) => `${animals(n)}, all on ${day}.`,
  intakeBusiest: (n: number, over: number, day: string, most: number) =>
    `${animals(n)} came in ${days(over)}; the busiest day was ${day} with ${most}.`,
  intakeSpread: (n: number, over: number) =>
    `${animals(n)} came in ${days(over)}, never more than one a day.`,
  intakeWeekday: (weekday: string, share: string) => `${weekday} bring most: ${share} of all.`,
  intakeKey: 'Bar: animals taken in on a day. Choose a bar to see them.',
  barSays: (day: string, n: number) => `${day}: ${animals(n)} taken in`,

  hangingTitle: 'Hanging, day by day',
  hangingN: (n: number) => `n = ${animals(n)}`,
  now: (n: number, places: number) =>
    `${animals(n)} ${n === 1 ? 'hangs' : 'hang'} now in ${plural(places, 'place', 'places')}.`,
  nowFull: (n: number, places: number) =>
    `${animals(n)} ${n === 1 ? 'hangs' : 'hang'} now, and there ${places === 1 ? 'is' : 'are'} ${plural(places, 'place', 'places')}: the coolers are full.`,
  nowBare: (n: number) =>
    `${animals(n)} ${n === 1 ? 'hangs' : 'hang'} now. No cooler is set up that they could fill.`,
  fillsAbout: (day: string) => `They most likely fill on ${day}.`,
  fillsEarly: (day: string) => `As early as ${day} it may be.`,
  fillsPerhaps: (day: string, weeks: number) =>
    `Most likely they do not fill in the next ${plural(weeks, 'week', 'weeks')}, but they may from ${day} on.`,
  fillsNot: (high: string, weeks: number) =>
    `In the next ${plural(weeks, 'week', 'weeks')} they do not fill: 8 in 10, at most ${high} hang.`,
  aheadBare: (low: string, high: string, day: string) =>
    `On ${day} it will be ${low === high ? low : `${low} to ${high}`}, 8 in 10.`,
  freesUp: (day: string) => `Most likely there is room again on ${day}.`,
  peak: (n: number, day: string) => `At most ${n} hung at once, on ${day}.`,
  overPlaces: (n: number, places: number) =>
    `On ${days(n)} more hung than the ${plural(places, 'place', 'places')} of today.`,
  restsEarlier: (perDay: string, seasons: number) =>
    `About ${perDay} a day are expected to come, as in ${seasons === 1 ? 'the earlier season' : `${seasons} earlier seasons`} on the same days, by how this one went so far.`,
  restsPace: (perDay: string) =>
    `About ${perDay} a day are expected to come, as in the last two weeks: there is no earlier season to go by.`,
  restsCut: (perDay: string, over: number) =>
    `About ${perDay} leave the hook on an open day, as on ${over === 1 ? 'the open day' : `${over} open days`} of the last three weeks.`,
  restsNoCut: 'None left the hook in the last three weeks, so only what comes is added up.',
  hangingKey: 'Line: animals on the hook at the end of each day.',
  forecastKey:
    'Hatched: where 8 in 10 such days end, and within it the mean, dashed. It takes you to go on as you did.',
  placesKey: (places: number) =>
    `Dashed across: the ${plural(places, 'place', 'places')} of all coolers in use today.`,
  narrowed: 'Only some animals are chosen: places and a forecast are drawn when all of them are.',
  places: (n: number) => plural(n, 'place', 'places'),
  today: 'today',
  ahead: 'expected',
  low: 'From',
  mean: 'Mean',
  high: 'To',
  expected: 'Expected, 8 in 10',

  waitsTitle: 'Days from intake to ready',
  noWaits: 'No animal under this choice is ready yet. How long they took is drawn as they become so.',
  oneWait: (n: number) => `One animal so far took ${days(n)}. One shows no spread.`,
  waits: (n: number, low: string, high: string, middle: string) =>
    `Half of ${animals(n)} took ${low === high ? low : `${low} to ${high}`} days, the middle one ${middle}.`,
  waitsSame: (n: number, all: number) => `All ${animals(n)} took ${days(all)}.`,
  waitsLong: (n: number, than: number) => `${animals(n)} took more than ${days(than)}.`,
  waitsFew: 'So few say little of what is usual.',
  waitsKey: 'Bar: animals that took so many days. Choose a bar to see them.',
  waitDays: 'Days',
  waitAnimals: 'Animals',
  readyN: (n: number) => `n = ${animals(n)} that became ready`,
  binSays: (span: string, n: number) => `${span} ${span === '1' ? 'day' : 'days'}: ${animals(n)}`,
  binMore: (from: number) => `${from}+`,

  waitOfTitle: 'Days from intake to ready, by kind of game',
  species: 'Kind of game',
  middleHalf: 'Middle half',
  middle: 'Middle',
  shortest: 'Shortest',
  longest: 'Longest',
  waitOf: (slow: string, slowDays: string, fast: string, fastDays: string) =>
    `${slow} takes longest (median ${slowDays} days), ${fast} is ready soonest (${fastDays}).`,
  waitOfOne: (name: string, n: string) => `${name}: median ${n} days.`,
  waitOfAlike: (n: string) => `All take about as long: median ${n} days.`,
  waitOfKey: (fewest: number) =>
    `Line: from the shortest to the longest. Box: the middle half, with a dot at the median; drawn from ${fewest} animals on. Choose a row to see the animals.`,
  rowSays: (name: string, n: number, middle: string) => `${name}: median ${middle} days (${animals(n)})`,
};
