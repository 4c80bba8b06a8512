import { plural } from '../../plural.ts';

/** Texts of the season's fat. Amounts are already formatted. */
export const fatText = {
  empty: (season: number) => `No batch of the ${season} season used meat of these animals.`,
  emptyHow: 'Plan a batch in the Grinder: its fat is followed here from the plan to the test.',
  toGrinder: 'Open the Grinder',
  batch: 'Batch',
  day: 'Day',
  species: 'Species',
  batches: 'Batches',
  animals: 'Animals',

  title: 'Fat by batch',
  share: 'Fat',
  target: 'Target',
  planned: 'Planned',
  weighedIn: 'Weighed in',
  tested: 'Fat test',
  nBatches: (batches: number, tests: number) =>
    `n = ${plural(batches, 'batch', 'batches')}, ${plural(tests, 'with a fat test', 'with a fat test')}`,
  noFat: 'No batch used meat of these animals yet. Plan one in the Grinder and its fat is followed here.',
  noTargets: (n: number) =>
    n === 1 ? 'The batch had no fat target.' : `None of ${n} batches had a fat target.`,
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
    `Drawn: the newest ${drawn} of those with a target or a test, out of ${plural(of, 'batch', 'batches')}.`,
  listed: (listed: number, of: number) => `The table holds the newest ${listed} of ${of}.`,
  key: 'Dash: target. Open triangle: plan. Dot: weighed in. Diamond: fat test. Choose a mark to open the batch.',

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
  andMore: (names: string, more: number) => `${names} and ${more} more`,
  controlKey:
    'Dashed lines: the mean of the tests and the limits within which single tests vary by chance. A diamond is outside them. Choose a mark to open the batch.',
  controlDrawn: (drawn: number, of: number) =>
    `Drawn: the newest ${drawn} of ${of}; the limits rest on all of them.`,
  limitsSource:
    'Limits: mean ± 3 × mean moving range / 1.128, NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.2',
  upperLimit: (points: string) => `upper limit ${points}`,
  lowerLimit: (points: string) => `lower limit ${points}`,
  centre: (points: string) => `mean ${points}`,

  sourcesTitle: 'What the fat came from',
  source: 'Fat',
  own: 'The animals’ own fat',
  weight: 'Weight',
  partOfAll: 'Of all fat',
  cost: 'Cost',
  costMinor: 'Cost, in the smallest coin',
  nFat: (mass: string, batches: number) => `n = ${plural(batches, 'batch', 'batches')}, ${mass} of fat`,
  noSources: 'No fat went into these batches, neither bought nor the animals’ own.',
  mainSource: (name: string, share: string, mass: string) => `${name} made up ${share} of the fat: ${mass}.`,
  onlyOwn: (mass: string) => `All of the fat was the animals’ own: ${mass}.`,
  onlySource: (name: string, mass: string) => `All of the fat was ${name}: ${mass}.`,
  spent: (money: string) => `The bought fat of lots with a price cost ${money}.`,
  sourcesKey:
    'Length: weight that went in. Hatched: the animals’ own fat, which costs nothing to buy. Cost: of the lots that have a price.',
  inBatches: (batches: number) => `in ${plural(batches, 'batch', 'batches')}`,

  savedTitle: 'Own fat saved, and fat bought',
  savedRow: 'Own fat saved at the Table',
  groundRow: 'Of it ground',
  boughtRow: 'Bought fat that went in',
  noSaved: 'No fat was saved of these animals, and none was bought for their batches.',
  nSaved: (animals: number) => `n = ${plural(animals, 'animal', 'animals')} that gave fat`,
  savedUsed: (animals: number, saved: string, share: string) =>
    `${plural(animals, 'animal', 'animals')} gave ${saved} of ${animals === 1 ? 'its' : 'their'} own fat; ${share} of it was ground.`,
  savedNone: 'No fat was saved of these animals.',
  groundUnsaved: (mass: string) => `${mass} of own fat was ground without being weighed at the Table first.`,
  couldReplace: (left: string, share: string) =>
    `The ${left} that was not ground is ${share} of what was bought: where hunters like it in their grind, that is fat the shop need not buy.`,
  noBought: 'No bought fat went in.',
  savedKey: 'Hatched: saved at the Table. Crossed: of it ground. Solid: bought.',

  speciesTitle: 'Fat by species',
  nSpecies: (species: number, animals: number) =>
    `n = ${plural(animals, 'animal', 'animals')} of ${plural(species, 'species', 'species')}`,
  noSpecies: 'Nothing was weighed into these batches yet.',
  mostFat: (name: string, perAnimal: string) => `${name} took most bought fat: ${perAnimal} an animal.`,
  noFatBought: 'None of them took bought fat.',
  farthest: (few: number, name: string, n: number, points: string, leaner: boolean) =>
    points === '0.0'
      ? `Where at least ${few} batches were tested, the tests met their targets.`
      : `Of those with at least ${few} tested batches, ${name} lies farthest off: ${points} points ${leaner ? 'below' : 'above'} target over ${plural(n, 'batch', 'batches')}.`,
  speciesKey:
    'Line in the middle: the target. Gray field: within a point of it. Dot: weighed in. Diamond: fat tests. Each is a mean over the species’ batches, by the weight it put in.',
  tableOnly: 'Species without a target in any batch are in the table only.',
  few: (n: number) => `A mean of fewer than ${n} batches says little.`,
  missAxis: 'Points of fat off target',
  boughtPerAnimal: 'Bought fat an animal',
  boughtFat: 'Bought fat',
  ownFat: 'Own fat ground',
  missIn: 'Weighed in, off target',
  missTest: 'Tests, off target',
  inPoints: (points: string) => `weighed in ${points}`,
  testPoints: (points: string, n: number) => `tests ${points} (${n})`,
  noTestPoints: 'no tests',
};
