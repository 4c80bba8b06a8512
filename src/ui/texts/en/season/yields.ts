import type { SplitBy } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

/** Texts of the take-home view: species, seasons and splits. Amounts are already formatted. */
export const yieldsText = {
  summary: (animals: string, mass: string) =>
    `${animals} checked in, ${mass} taken home from the finished ones.`,
  empty: (season: number) => `Nothing was weighed in the ${season} season yet.`,
  emptyFiltered: 'No animal is like that.',
  emptyFilteredHow: 'Choose other animals above, or show all.',
  emptyHow:
    'Check in an animal, weigh it hanging and weigh its parts at the Table: the charts draw themselves from those weighings.',
  toIntake: 'Check in an animal',
  all: 'Show all animals',
  animals: 'Animals',
  ticket: 'Ticket',
  species: 'Species',
  season: 'Season',

  title: 'Take-home by species',
  takeHomeShare: 'Take-home as a share of hanging weight',
  middleHalf: 'Middle half',
  middle: 'Median',
  lowest: 'Lowest',
  highest: 'Highest',
  lowerQuarter: '25% are below',
  upperQuarter: '25% are above',
  nAnimals: (animals: number, species: number) =>
    `n = ${plural(animals, 'animal', 'animals')} of ${plural(species, 'species', 'species')}`,
  none: 'No animal has both its hanging weight and its parts weighed yet. Weigh them at the Table and the yields appear here.',
  one: (ticket: string, species: string, share: string) =>
    `One animal so far: ${ticket} (${species}) gave ${share} of its hanging weight. One animal shows no spread; the drawing begins with the second.`,
  main: (species: string, n: number, share: string, against: string) =>
    `${species}: median take-home ${share} (${plural(n, 'animal', 'animals')}), ${against}.`,
  inside: (range: string) => `inside the published ${range}`,
  above: (range: string) => `above the published ${range}`,
  below: (range: string) => `below the published ${range}`,
  nothingPublished: 'with no published range to compare',
  ends: (most: string, mostShare: string, least: string, leastShare: string) =>
    `Highest: ${most} (${mostShare}). Lowest: ${least} (${leastShare}).`,
  oddOne: (species: string, ticket: string, share: string) => `${species} ${ticket} (${share})`,
  odd: (names: string, more: number) => `Odd, worth a look: ${names}${more > 0 ? ` and ${more} more` : ''}.`,
  few: (names: string) => `Too few to judge: ${names}.`,
  kindN: (name: string, n: number) => `${name} (${n})`,
  key: (fewest: number) =>
    `Dot: one finished animal that came hide on or skinned; press it to open the animal. Box: the middle half, with a line at the median; drawn from ${fewest} animals on, press it to see them all. Whiskers reach at most 1.5 box lengths; a diamond lies farther out.`,
  keyFrame: 'Gray band: the range of the published means; single animals spread wider.',
  drawn: (drawn: number, of: number) =>
    `Drawn: ${drawn} of ${of} animals, evenly from the least to the most. Boxes and words count all.`,
  untold: (n: number) =>
    `${n === 1 ? 'One more animal is' : `${n} more animals are`} not here: they did not come as whole carcasses, or lack a hanging weight or packages.`,
  unpublished: (names: string) =>
    `No published range is drawn for ${names}: what is known of it beforehand is an assumption.`,
  publishedBy: (names: string, source: string) => `Published range for ${names}: ${source}`,

  trendTitle: 'This season against earlier ones',
  trendOne: 'Finished animals are of one season only. With a second one you see here whether you get better.',
  trendUp: (species: string, share: string, points: string, more: boolean, season: number) =>
    points === '0.0'
      ? `${species}: ${share}, the same as in ${season}.`
      : `${species}: ${share}, ${points} points ${more ? 'more' : 'less'} than in ${season}.`,
  trendFew: (species: string) =>
    `${species}: too few animals in one of the last two seasons to compare them.`,
  trendNone: 'No species has finished animals in two seasons yet.',
  trendKey: (few: number) =>
    `Bar: the middle half of a season’s animals, its dot the middle; this season is dark. Open dot without a bar: fewer than ${few} animals, too few to say. Choose a season to see its animals.`,
  keyBand: 'Gray band: the range of the published means; single animals lie wider.',
  trendN: (n: number, seasons: number) =>
    `n = ${plural(n, 'animal', 'animals')} of ${plural(seasons, 'season', 'seasons')}`,

  splitTitle: 'What makes a difference',
  splitOf: (species: string) => `What makes a difference, ${species}`,
  splitBy: 'Split by',
  split: {
    brought: 'Brought as',
    sex: 'Sex',
    age: 'Age',
    damaged: 'Shot damage',
    cutter: 'Who cut',
    detail: 'How it was weighed',
  } satisfies Record<SplitBy, string>,
  damagedWords: { yes: 'With damage', no: 'Without damage' } as Record<string, string>,
  splitWidest: (
    group: string,
    most: string,
    mostShare: string,
    least: string,
    leastShare: string,
    n: string,
  ) => `${group}: ${most} gave ${mostShare}, ${least} ${leastShare} (${n} animals): the widest gap here.`,
  splitAsk: 'Compare tells whether such a gap is more than chance.',
  splitNone: 'No two groups have enough animals to be held against each other.',
  splitKey: (few: number) =>
    `Box: the middle half, its line the middle, whiskers to the least and the most. Open dot: fewer than ${few} animals, too few to say. Choose a row to see its animals.`,
  and: (a: number, b: number) => `${a} and ${b}`,
  tooFew: (n: number) => `n = ${n}, too few to say`,
  group: 'Group',
  of: 'Of',
};
