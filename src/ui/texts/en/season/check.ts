import { plural } from '../../plural.ts';

/** Texts of the season's predictions compared with the observed values. */
export const checkText = {
  empty: (season: number) => `Nothing to check in the ${season} season yet.`,
  emptyHow:
    'Once animals are finished, what was expected of them is held against what they gave, and each quote against what came of it.',
  toQuote: 'Give a quote',
  animals: 'Animals',
  ticket: 'Ticket',
  species: 'Species',
  day: 'Day',

  quotesTitle: 'Were the quotes right?',
  quote: 'Quote',
  quoted: 'Quoted',
  cameOut: 'Came out',
  told: 'Quoted for',
  hung: 'On the hook',
  ofMostLikely: 'Take-home, in percent of what was most likely',
  nQuotes: (n: number) => `n = ${plural(n, 'quote', 'quotes')} whose animal is finished`,
  noQuotes:
    'None of these animals that was quoted first is finished yet. Quotes are held against what was weighed here.',
  quotesHeld: (inside: number, n: number, low: number, high: number) =>
    `${inside} of ${plural(n, 'quote', 'quotes')} held; with honest ranges it is ${low === high ? low : `${low} to ${high}`}.`,
  quotesBias: (share: string, less: boolean) =>
    share === '0%'
      ? 'On average the meat came out as quoted.'
      : `On average the meat came out ${share} ${less ? 'lighter' : 'heavier'} than quoted.`,
  quotesTold: (wrong: number, missed: number) =>
    `In ${wrong} of the ${missed} that missed, the weight told was more than 5% off what hung.`,
  drawnNewest: (drawn: number, of: number) => `Drawn: the newest ${drawn} of ${of}.`,
  listed: (listed: number, of: number) => `The table holds the newest ${listed} of ${of}.`,
  quotesKey:
    'Line: what was quoted, 8 in 10 such animals. Dot: what went home, bought fat with it; a diamond is outside. Choose a mark to open the animal.',

  coverTitle: 'How often the quotes held',
  allSpecies: 'All',
  coverAxis: 'Quotes that held',
  held: 'Held',
  honest: 'Honest',
  bias: 'Off by',
  nOfN: (held: number, n: number) => `${held} of ${n}`,
  heavier: (share: string) => `${share} heavier`,
  lighter: (share: string) => `${share} lighter`,
  asQuoted: 'as quoted',
  coverAllHonest: 'Every species holds as often as ranges of 8 in 10 should.',
  coverFew: (names: string, n: number) =>
    `Quotes for ${names} held too seldom: ${n === 1 ? 'its' : 'their'} ranges are too narrow, or lean to one side.`,
  coverMany: (names: string, n: number) =>
    `Quotes for ${names} held more often than they should: ${n === 1 ? 'its' : 'their'} ranges could be narrower.`,
  coverSmall: (n: number) =>
    `Fewer than ${n} quotes of a species say little: nearly any count is honest then.`,
  coverKey:
    'Line: 8 in 10, what was promised. Band: where the count falls 19 times in 20 with honest ranges. Dot: quotes that held; a diamond is outside the band.',

  beliefTitle: 'What the next quote rests on',
  before: 'Before this season',
  now: 'After its animals',
  nAnimals: (animals: number, species: number) =>
    `n = ${plural(animals, 'animal', 'animals')} of ${plural(species, 'species', 'species')}`,
  takeHomeShare: 'Take-home as a share of hanging weight',
  noBelief:
    'Quotes rest on what was known before the season until its first animal is weighed hanging and cut.',
  belief: (species: string, n: number, before: string, now: string) =>
    `${species}: after ${plural(n, 'animal', 'animals')} of this season, 8 in 10 are expected to give ${now} take-home; before them it was ${before}.`,
  beliefKey:
    'Diamond with a thin line: expected of a skinned animal before this season, which without animals of earlier ones is what was published. Dot with a thick line: expected after it. Each line holds 8 in 10 animals.',

  pathTitle: (species: string) => `${species}: what was expected, and what they gave`,
  pathAxis: (species: string) =>
    `${species}: animals of this season, in the order in which they were finished`,
  nPath: (n: number, earlier: number) =>
    `n = ${plural(n, 'animal', 'animals')}, after ${earlier} of earlier seasons`,
  narrowed: (before: string, now: string) =>
    `8 in 10 were expected within ${before} before the first, and are within ${now} now`,
  pathNarrower: (points: string) => `: narrower by ${points} points.`,
  pathWider: (points: string) =>
    `: wider by ${points} points, for these animals lay farther apart than was thought.`,
  pathSame: ': as wide as it was, for the shop knew this species before.',
  pathInside: (inside: number, n: number) => `${inside} of ${n} fell where the band stood before they came.`,
  pathFew: (n: number) => `Fewer than ${n} animals say little.`,
  pathKey:
    'Band: what 8 in 10 skinned animals are expected to give, line: the mean. Dashed: as it was before the first. Dot: an animal that came whole or skinned; a diamond lay outside the band. Choose one to open it.',
  pathFiltered:
    'The band rests on all animals of the season, whatever is chosen above; the dots are those chosen.',
  pathSampled: (drawn: number) =>
    `Drawn: ${drawn} of them, none that came in pieces, and of more than 300 only some, evenly through the season.`,
  pathBeyond: (n: number) =>
    n === 1
      ? 'One lies beyond the drawing and stands at its edge.'
      : `${n} lie beyond the drawing and stand at its edge.`,
  nth: 'Number',
  gave: 'Gave',
  expected: 'Expected before',
};
