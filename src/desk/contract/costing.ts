/** What a pound costs and brings, as a window sees it. Money in minor units, not rounded where it is a cost. */
import type { PriceGaps } from './price.ts';
import type { Range } from './words.ts';

export type ServiceCode = 'cutting' | 'grinding' | 'products';

/** What the shop says of itself. Minutes per kilogram and grams whatever its unit. */
export interface CostFigures {
  wagePerHour: number;
  overheadPerHour: number;
  packagingPerPackage: number;
  /** Part of a fee that should be left over. */
  wantedMargin: number;
  services: Record<ServiceCode, { minutesPerAnimal: number; minutesPerKg: number; packageGrams: number }>;
}

/** A figure with what it rests on: `from` 0 is an assumption, for want of weighings. */
export interface Measured {
  figure: 'received' | 'shrink' | 'packedShare' | 'boughtFatShare' | 'fatPerKg';
  value: number;
  from: number;
  of: 'animals' | 'batches' | 'lots';
}

export interface ServiceAnswer {
  code: ServiceCode;
  measured: Measured[];
  /** One typical animal or batch. */
  receivedGrams: number;
  finishedGrams: number;
  hours: number;
  packages: number;
  costPerJob: number;
  costPerLb: number;
  costPerKg: number;
  /** The parts of the cost of one finished unit of the shop. */
  parts: { wages: number; overhead: number; packaging: number; fat: number };
  /** Per finished unit of the shop, as all below. */
  cost: number;
  /** What the prices in force take on the animals billed, and the fat charged beside it; null without bills or prices. */
  fee: { service: number; fat: number; bills: number } | null;
  /** What is left of the fee, as a fraction of it; below 0 at a loss. */
  margin: number | null;
  /** Fees, fat charges counted in, at which nothing is left, and at which the wanted margin is. */
  breakEven: number;
  wanted: number;
  /** Finished weight over received: multiplies a fee per finished unit into one per received unit. */
  finishedShare: number;
  /** What moves the cost of a finished unit most when it changes by a tenth, greatest first. */
  swings: { input: string; low: number; high: number }[];
}

export interface SpeciesMargin {
  code: string;
  name: string;
  animals: number;
  /** Before tax. */
  incomeMinor: number;
  cost: number;
}

export type IncomeCode = ServiceCode | 'fat' | 'extras' | 'whole';

export interface IncomeGroup {
  code: IncomeCode;
  minor: number;
  lines: { code: string; label: string; bills: number; minor: number }[];
}

/** A bill or a take-home outside of what the quote said. `off` is the way to the nearer end, 0 within. */
export interface QuoteMiss {
  ticket: string;
  quote: string;
  speciesName: string;
  billMinor: number;
  quotedMinor: Range;
  offMinor: number;
  takeHomeGrams: number | null;
  quotedGrams: Range;
  offGrams: number;
}

export interface CostingView {
  season: number;
  currency: string;
  /** False while the figures are the example that came with the program. */
  own: boolean;
  figures: CostFigures;
  /** Animals with a bill that stands. */
  billed: number;
  services: ServiceAnswer[];
  species: SpeciesMargin[];
  /** What the billed animals cost, by what was done; the fat that they were charged for at what it had cost. */
  workCost: Record<ServiceCode | 'fat', number>;
  income: IncomeGroup[];
  /** Bought fat that went into the season's grinds, against what was charged for fat. */
  fat: { usedGrams: number; unpricedGrams: number; cost: number; chargedMinor: number };
  quotes: { compared: number; missed: QuoteMiss[] };
}

export interface PricesTried {
  season: number;
  animals: number;
  thenMinor: number;
  nowMinor: number;
  /** By code: a line that only one side has is 0 on the other. Tax is the last line. */
  lines: { code: string; label: string; thenMinor: number; nowMinor: number }[];
  species: { code: string; name: string; animals: number; thenMinor: number; nowMinor: number }[];
  /** The animals that change most, greatest first. */
  most: { ticket: string; speciesName: string; thenMinor: number; nowMinor: number }[];
  /** Products with a price now that the bills counted as plain grind, and that stay so here. */
  notSplit: string[];
  /** Where these prices and the list of products do not meet. */
  gaps: PriceGaps;
}
