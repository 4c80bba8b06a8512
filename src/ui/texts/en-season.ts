import { plural } from './plural.ts';

/** Words of the Season and of its charts. Amounts come in already written the shop's way. */
export const seasonText = {
  heading: (season: number) => `Season ${season}`,
  choose: 'Season',
  summary: (animals: string, mass: string) =>
    `${animals} taken in; ${mass} went home with the finished ones.`,
  empty: (season: number) => `Nothing was weighed in the ${season} season yet.`,
  emptyHow:
    'Take in an animal, weigh it hanging and weigh its parts at the Table: the charts draw themselves from those weighings.',
  toIntake: 'Take in an animal',
  animals: 'Animals',
  ticket: 'Ticket',
  species: 'Species',
  day: 'Day',
  batch: 'Batch',

  takeHomeShare: 'Take-home as a share of hanging weight',
  nAnimals: (animals: number, species: number) =>
    `n = ${plural(animals, 'animal', 'animals')} of ${plural(species, 'species', 'species')}`,

  beliefTitle: 'What the next quote rests on',
  before: 'Before your first animal',
  now: 'Now',
  noBelief: 'Quotes rest on published figures until your first animal is weighed hanging and cut.',
  belief: (species: string, n: number, prior: string, now: string) =>
    `${species}: after ${plural(n, 'animal', 'animals')} of your own, 8 in 10 are expected to give ${now} take-home; before the first it was ${prior}.`,
  beliefKey:
    'Diamond with a thin line: expected before your first animal. Dot with a thick line: expected now. Each line holds 8 in 10 animals.',

  quotesTitle: 'Were the quotes right?',
  quote: 'Quote',
  quoted: 'Quoted',
  cameOut: 'Came out',
  told: 'Quoted for',
  hung: 'On the hook',
  ofMostLikely: 'Take-home, in hundredths of what was most likely',
  nQuotes: (n: number) => `n = ${plural(n, 'quote', 'quotes')} whose animal is finished`,
  noQuotes: 'No animal that was quoted first is finished yet. Quotes are held against what was weighed here.',
  quotesHeld: (inside: number, n: number, low: number, high: number) =>
    `${inside} of ${plural(n, 'quote', 'quotes')} held; with honest ranges it is ${low === high ? low : `${low} to ${high}`}.`,
  quotesBias: (share: string, less: boolean) =>
    share === '0 %'
      ? 'On average the meat came out as quoted.'
      : `On average the meat came out ${share} ${less ? 'lighter' : 'heavier'} than quoted.`,
  quotesTold: (wrong: number, missed: number) =>
    `In ${wrong} of the ${missed} that missed, the weight told was more than 5 % off what hung.`,
  quotesBySpecies: (parts: string) => `Held by species: ${parts}.`,
  drawnNewest: (drawn: number, of: number) => `Drawn: the newest ${drawn} of ${of}; all are in the table.`,
  quotesKey:
    'Line: what was quoted, 8 in 10 such animals. Dot: what went home, bought fat with it; a diamond is outside. Choose a mark to open the animal.',

  fatTitle: 'Fat by batch',
  fatShare: 'Fat',
  target: 'Target',
  planned: 'Planned',
  weighedIn: 'Weighed in',
  tested: 'Fat test',
  nBatches: (batches: number, tests: number) =>
    `n = ${plural(batches, 'batch', 'batches')}, ${plural(tests, 'fat test', 'fat tests')}`,
  noFat: 'No batch was ground this season yet. Plan one in the Grinder and its fat is followed here.',
  noTargets: (n: number) => `None of ${plural(n, 'batch', 'batches')} had a fat target.`,
  onTarget: (met: number, of: number) =>
    of === 1
      ? `The one batch with a target was weighed in ${met === 1 ? 'within' : 'more than'} one point of fat ${met === 1 ? 'of' : 'from'} it.`
      : `${met} of ${of} batches with a target were weighed in within one point of fat of it.`,
  noTests: 'None was tested for fat, so what was weighed in is not checked yet.',
  testGap: (n: number, points: string, leaner: boolean) =>
    points === '0.0'
      ? `Over ${plural(n, 'test', 'tests')} the meter agrees with what was weighed in.`
      : `Over ${plural(n, 'test', 'tests')} the meat came out ${points} points ${leaner ? 'leaner' : 'fatter'} than weighed in.`,
  drawn: (drawn: number, of: number) =>
    `Drawn: the newest ${drawn} of those with a target or a test, out of ${of}; all are in the table.`,
  fatKey:
    'Dash: target. Open triangle: plan. Dot: weighed in. Diamond: fat test. Choose a mark to open the batch.',

  controlTitle: 'Fat tests against their targets',
  off: 'Points off target',
  offAxis: 'Test less target, in points of fat',
  nTests: (n: number) => `n = ${plural(n, 'test', 'tests')} of batches with a target`,
  noControl: (n: number) =>
    `${n === 0 ? 'No batch with a target was tested' : `Only ${plural(n, 'batch', 'batches')} with a target ${n === 1 ? 'was' : 'were'} tested`} for fat. From 5 on, limits show which test is more than chance.`,
  controlMean: (points: string, leaner: boolean) =>
    points === '0.0'
      ? 'On average the tests meet their targets.'
      : `On average the tests lie ${points} points ${leaner ? 'below' : 'above'} their targets.`,
  noneOutside: 'None is outside the limits of chance.',
  outside: (names: string, n: number) =>
    `${names} ${n === 1 ? 'is' : 'are'} outside the limits of chance: look for what was different.`,
  controlKey:
    'Dashed lines: the mean of the tests and the limits within which single tests vary by chance. A diamond is outside them. Choose a mark to open the batch.',
  limitsSource:
    'Limits: mean ± 3 × mean moving range / 1.128, NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2',
  upperLimit: (points: string) => `upper limit ${points}`,
  lowerLimit: (points: string) => `lower limit ${points}`,
  centre: (points: string) => `mean ${points}`,

  sources: 'Where this was published',
  saveAsPicture: 'Save as picture',
  saveAsTable: 'Save as table (CSV)',
  tableBehind: 'The figures behind this',
};
