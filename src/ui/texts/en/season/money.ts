import type { IncomeCode } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

const bills = (n: number) => plural(n, 'billed animal', 'billed animals');

/** Texts of the season's money. Amounts are already formatted. */
export const moneyText = {
  empty: (season: number) => `No animal of ${season} is billed yet.`,
  emptyHow: 'What the season brought and cost is drawn from the first bill on.',
  wholeSeason: (pieces: string) =>
    `Bills are told for the whole season: “${pieces}” does not narrow what is drawn here.`,
  speciesOnly: (species: string) =>
    `Only the picture by kind of game is narrowed to ${species}; the others are of all animals.`,
  exampleFigures:
    'Costs rest on running costs that are made up so far; type your own under Costs and prices.',
  toCosts: 'Costs and prices',
  n: (n: number) => `n = ${bills(n)}`,
  billed: 'Billed',
  cost: 'Cost',
  left: 'Left',
  share: 'Share left',
  kept: (amount: string) => `${amount} left`,
  lost: (amount: string) => `${amount} short`,
  barKey:
    'Plain bar: billed before tax. Hatched bar: what it cost by your running costs and each animal’s own weights. Choose a row to see what is behind it.',

  workTitle: 'Billed and cost, by service',
  work: 'Service',
  workOf: {
    cutting: 'Skinning and cutting',
    grinding: 'Grinding',
    products: 'Sausage, other products',
    fat: 'Fat',
    extras: 'Extras',
    whole: 'On the whole bill',
  } satisfies Record<IncomeCode, string>,
  workFinding: (billed: string, cost: string, left: string, share: string) =>
    `${billed} was billed, and it cost ${cost}: ${left} is left, ${share} of what was billed.`,
  workLoss: (billed: string, cost: string, loss: string) =>
    `${billed} was billed, and it cost ${cost}: ${loss} more than was taken.`,
  workMost: (work: string, amount: string) => `${work} leaves most, ${amount}.`,
  workLeast: (work: string, amount: string) => `${work} falls short by ${amount}.`,
  noCost: 'no cost of its own',

  speciesTitle: 'Billed and cost, by kind of game',
  species: 'Kind of game',
  animals: 'Animals',
  speciesNone: (species: string) => `No ${species} of the season is billed.`,
  speciesFew: (names: string) => `Too few to go by: ${names}.`,
  speciesRow: (name: string, n: number) => `${name} (${n})`,

  feeTitle: 'The grind fee against its cost',
  take: 'You take',
  costs: 'It costs',
  grindFee: 'grind fee',
  fatCharge: 'fat charged',
  parts: { wages: 'wages', overhead: 'everything else', packaging: 'wrap', fat: 'bought fat' } as const,
  breakEven: (fee: string) => `break-even ${fee}`,
  wanted: (fee: string, share: string) => `${fee} leaves ${share}`,
  breakEvenRow: 'Break-even fee',
  wantedRow: (share: string) => `Fee that leaves ${share}`,
  breakEvenFinding: (fee: string, per: string) => `At ${fee} ${per} nothing is left.`,
  feeN: (n: number, batches: number) =>
    `n = ${plural(n, 'animal', 'animals')} billed for it, ${plural(batches, 'batch', 'batches')}`,
  feeKey:
    'Upper bar: what today’s prices take on the animals billed, fat charges with it. Lower bar: what it costs, part by part. Lines: the fee at which nothing is left, and at which what you want is.',
  part: 'Part',
  perUnit: (unit: string) => `Per ${unit}`,

  fatTitle: 'Fat bought and charged',
  fatCost: 'Bought fat that was ground',
  fatCharged: 'Charged for fat',
  fatN: (mass: string) => `n = ${mass} of bought fat ground`,
  fatKey: 'Fat is charged with the bill, so what is ground but not billed yet stands only in the first bar.',
  what: 'What',
  amount: 'Amount',
};
