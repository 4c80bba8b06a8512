import type { IncomeCode, Measured, ServiceCode } from '../../../bridge/contract.ts';
import { plural } from '../plural.ts';

/** Names of one unit, for prices. */
const per: Readonly<Record<'lb' | 'kg', string>> = { lb: 'a pound', kg: 'a kilogram' };

/** Texts of the Costs page and of trying prices. Amounts are already formatted. */
export const costsText = {
  heading: (season: number) => `What a pound costs, ${season}`,
  headingKilo: (season: number) => `What a kilogram costs, ${season}`,
  costs: 'Costs and prices',
  tabs: 'Season',
  choose: 'Season',
  per,

  running: 'Your running costs',
  assumption:
    'Made-up figures, so that the page can be tried. They are an assumption, not advice: type your own and keep them.',
  wage: 'Wages per hour',
  wageHint: 'One worker, with payroll taxes and benefits.',
  overhead: 'Everything else per hour',
  overheadHint: 'Rent, power, insurance, cleaning, over the hours worked.',
  packaging: 'Wrap and label per package',
  margin: 'Profit wanted, percent of the fee',
  marginProblem: 'Type a percentage from 0 to 90.',
  minutesPer: {
    cutting: 'Minutes per animal',
    grinding: 'Minutes per batch',
    products: 'Minutes per batch',
  } satisfies Record<ServiceCode, string>,
  minutesMore: {
    cutting: (unit: 'lb' | 'kg') => `and per ${unit} hanging`,
    grinding: (unit: 'lb' | 'kg') => `and per ${unit} of trim`,
    products: (unit: 'lb' | 'kg') => `and per ${unit} of trim`,
  } satisfies Record<ServiceCode, (unit: 'lb' | 'kg') => string>,
  packageSize: 'Usual package',
  save: 'Save figures',
  saved: 'Kept. The answers follow them.',

  service: {
    cutting: 'Skinning and cutting',
    grinding: 'Grinding',
    products: 'Making sausage and other products',
  } satisfies Record<ServiceCode, string>,
  left: (service: string, cost: string, fee: string, unit: 'lb' | 'kg', share: string) =>
    `${service} costs ${cost} ${per[unit]}; you take ${fee}: ${share} is left.`,
  lost: (service: string, cost: string, fee: string, unit: 'lb' | 'kg', loss: string) =>
    `${service} costs ${cost} ${per[unit]}; you take ${fee}: ${loss} is lost on each.`,
  even: (service: string, cost: string, unit: 'lb' | 'kg') =>
    `${service} costs ${cost} ${per[unit]}, which is just what you take.`,
  noFee: (service: string, cost: string, unit: 'lb' | 'kg') =>
    `${service} costs ${cost} ${per[unit]}. What you take is not known: no animal of this season is billed for it.`,
  noPrice: (service: string, cost: string, unit: 'lb' | 'kg') =>
    `${service} costs ${cost} ${per[unit]}. The prices in force take nothing for it.`,

  parts: { wages: 'Wages', overhead: 'Everything else', packaging: 'Wrap', fat: 'Bought fat' } as const,
  partsSpoken: (parts: string, fee: string) => `Cost by part: ${parts}. ${fee}`,
  taken: (fee: string) => `You take ${fee}`,
  amount: 'Amount',
  finished: {
    cutting: (unit: string) => `per ${unit} of meat`,
    grinding: (unit: string) => `per ${unit} packed`,
    products: (unit: string) => `per ${unit} packed`,
  } satisfies Record<ServiceCode, (unit: string) => string>,
  received: {
    cutting: (unit: string) => `per ${unit} hanging`,
    grinding: (unit: string) => `per ${unit} of trim`,
    products: (unit: string) => `per ${unit} of trim`,
  } satisfies Record<ServiceCode, (unit: string) => string>,
  job: { cutting: 'per animal', grinding: 'per batch', products: 'per batch' } satisfies Record<
    ServiceCode,
    string
  >,
  rows: {
    cost: 'It costs',
    fee: 'You take',
    fat: 'of that for fat',
    breakEven: 'Break-even fee',
    breakEvenBesideFat: 'Break-even fee beside the fat',
    wanted: (share: string) => `Fee that leaves ${share}`,
    wantedBesideFat: (share: string) => `Fee that leaves ${share}, beside the fat`,
  },
  feeRests: (bills: string) => `What you take: today’s prices on the ${bills} billed this season.`,
  measured: 'What it rests on',
  figure: {
    cutting: {
      received: (value: string) => `${value} on the hook`,
      shrink: (value: string) => `${value} lost as bone, sinew and drip`,
      packedShare: (value: string) => `${value} of the meat packed as cuts`,
      boughtFatShare: (value: string) => `${value} bought fat`,
      fatPerKg: (value: string) => `fat at ${value}`,
    },
    grinding: {
      received: (value: string) => `${value} of trim in a batch`,
      shrink: (value: string) => `${value} of the trim lost in the grinder`,
      packedShare: (value: string) => `${value} of it packed`,
      boughtFatShare: (value: string) => `${value} of the grind is bought fat`,
      fatPerKg: (value: string) => `fat bought at ${value}`,
    },
  } satisfies Record<'cutting' | 'grinding', Record<Measured['figure'], (value: string) => string>>,
  middle: {
    animals: (n: number) => `median of ${plural(n, 'animal', 'animals')}`,
    batches: (n: number) => `from ${plural(n, 'batch', 'batches')}`,
    lots: (n: number) => `from ${plural(n, 'lot', 'lots')} used`,
  } satisfies Record<Measured['of'], (n: number) => string>,
  assumed: 'assumed, for want of weighings',
  swing: (input: string, low: string, high: string) =>
    `What moves it most: ${input}. A tenth less or more makes ${low} or ${high}.`,
  swings: 'What else moves it',
  swingRow: (input: string, low: string, high: string) => `${input}: ${low} to ${high}`,
  input: {
    receivedGrams: 'the weight that comes in',
    gramsPerPackage: 'the size of a package',
    shrink: 'what is lost',
    boughtFatShare: 'how much fat is bought',
    minutesPerAnimal: 'the minutes whatever the weight',
    minutesPerKg: 'the minutes by weight',
    wagePerHour: 'wages',
    overheadPerHour: 'everything else per hour',
    packagingPerPackage: 'wrap and label',
    fatPerKg: 'the price of fat',
  } as Readonly<Record<string, string>>,

  species: 'By kind of game',
  kind: 'Kind of game',
  animals: 'Animals',
  billed: 'Billed',
  cost: 'Cost',
  remains: 'Left',
  share: 'Share',
  speciesBest: (best: string, share: string, worst: string, worstShare: string) =>
    `${best} leaves most of what it brings (${share}), ${worst} least (${worstShare}).`,
  speciesOne: (name: string, share: string) => `${name} leaves ${share} of what it brings.`,
  speciesHow:
    'Billed before tax, extras counted in. Cost: every billed animal by its own weights and the figures on this page.',
  nothingBilled: (season: number) => `No animal of ${season} is billed yet.`,
  nothingBilledHow:
    'Costs stand on your figures and weighings. What you take, by service and by kind of game, appears with the first bill.',
  toPickup: 'Open Pickup',

  income: 'What the season earned',
  incomeOf: {
    cutting: 'Skinning and cutting',
    grinding: 'Grinding',
    products: 'Sausage and other products',
    fat: 'Fat',
    extras: 'Extras',
    whole: 'On the whole bill',
  } satisfies Record<IncomeCode, string>,
  line: 'What for',
  bills: 'Bills',
  fatPaid: (mass: string, cost: string, charged: string) =>
    `${mass} of bought fat went into the season’s grinds and had cost ${cost}; ${charged} was charged for fat so far.`,
  fatFree: (mass: string, cost: string) =>
    `${mass} of bought fat went into the season’s grinds and had cost ${cost}; nothing was charged for fat.`,
  fatUnpriced: (mass: string) => `${mass} of it came from lots without a price, and is not counted.`,
  fatUnknown: (mass: string) =>
    `${mass} of bought fat went into the season’s grinds; no lot says what it had cost.`,
  noFat: 'No bought fat went into a finished grind this season.',

  missed: 'Quotes that missed',
  noneQuoted: 'No finished or billed animal of this season came of a quote.',
  meatMissed: (missed: number, of: number) =>
    `Take-home: ${missed} of ${plural(of, 'finished animal', 'finished animals')} fell outside the range that was quoted.`,
  billsMissed: (missed: number, of: number) =>
    `Bill: ${missed} of ${plural(of, 'quoted bill', 'quoted bills')} fell outside the range that was quoted.`,
  notBilled: 'not billed',
  ticket: 'Ticket',
  said: 'Said',
  bill: 'Bill',
  meat: 'Meat',
  within: 'within',
  over: (amount: string) => `${amount} over`,
  under: (amount: string) => `${amount} under`,
  unknown: 'not weighed',

  tried: (season: number, animals: string, now: string, then: string) =>
    `On the ${animals} billed in ${season} these prices would have brought ${now} instead of ${then}.`,
  triedSame: (season: number, animals: string, now: string) =>
    `On the ${animals} billed in ${season} these prices would have brought ${now}, the same as they did.`,
  triedNone: 'No animal is billed yet. Once some are, you see here what these prices would have brought.',
  triedAdjusted: (n: number) =>
    `${plural(n, 'bill has discounts, free lines or other prices of its own, which are', 'bills have discounts, free lines or other prices of their own, which are')} counted here too.`,
  triedUnprocessed: (n: number) =>
    `${plural(n, 'animal went back unprocessed and is', 'animals went back unprocessed and are')} charged only for what was done.`,
  triedNotSplit: (products: string) =>
    `The bills counted ${products} as plain grind, and so it is here: its own price is not in these sums.`,
  triedMore: 'The lines that change, the kinds of game, and the animals that change most',
  then: 'Then',
  now: 'Now',
  change: 'Change',
};
