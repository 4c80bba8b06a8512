/** Cost and revenue per pound. Money in minor units, costs not rounded. */
import type { PriceGaps } from './price.ts';
import type { Range } from './words.ts';

export type ServiceCode = 'cutting' | 'grinding' | 'products';

/** The shop's own cost figures. Minutes per kilogram and grams, whatever its unit. */
export interface CostFigures {
  wagePerHour: number;
  overheadPerHour: number;
  packagingPerPackage: number;
  /** Seasoning, cure and casings of what a recipe makes, per kilogram packed. */
  ingredientsPerKg: number;
  /** The wanted margin, as a fraction of the fee. */
  wantedMargin: number;
  services: Record<ServiceCode, { minutesPerAnimal: number; minutesPerKg: number; packageGrams: number }>;
}

/** A figure with its basis: `from` 0 is an assumption, without weighings. */
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
  /** Components of the cost per finished unit of the shop. */
  parts: { wages: number; overhead: number; packaging: number; fat: number };
  /** Per finished unit of the shop, like everything below. */
  cost: number;
  /**
   * Revenue of the current prices on the billed animals, and the fat charged in addition; null without bills or
   * prices.
   */
  fee: { service: number; fat: number; bills: number } | null;
  /** Margin as a fraction of the fee; negative at a loss. */
  margin: number | null;
  /** Fees, fat charges included, at which the margin is zero, and at which it is the wanted one. */
  breakEven: number;
  wanted: number;
  /** Finished weight over received: converts a fee per finished unit to one per received unit. */
  finishedShare: number;
  /** Effect of a change by a tenth of each input on the cost per finished unit, largest first. */
  swings: { input: string; low: number; high: number }[];
}

/** What a season's finished batches of one recipe cost and bring. Money in minor units per packed unit of the shop. */
export interface MadeCost {
  recipeId: number;
  recipe: string;
  product: string;
  batches: number;
  packedGrams: number;
  parts: { work: number; packaging: number; bought: number; ingredients: number };
  cost: number;
  /** By today's prices on the billed animals, and what is charged for bought meat besides; null without such a bill. */
  fee: { product: number; bought: number; bills: number } | null;
  /** Fraction of the fee; null without a fee. */
  margin: number | null;
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

/** A bill or a take-home outside the quoted range. `off` is the distance to the nearer end, 0 within. */
export interface QuoteMiss {
  ticket: string;
  quote: string;
  speciesName: string;
  /** Null without a bill in the shop's currency that follows a quoted price. */
  billMinor: number | null;
  quotedMinor: Range | null;
  offMinor: number;
  takeHomeGrams: number | null;
  quotedGrams: Range;
  offGrams: number;
}

export interface CostingView {
  season: number;
  currency: string;
  /** False while the figures are the supplied example. */
  own: boolean;
  figures: CostFigures;
  /** Number of animals with a valid bill. */
  billed: number;
  services: ServiceAnswer[];
  /** By recipe, those of which most was packed first. */
  made: MadeCost[];
  species: SpeciesMargin[];
  /** Cost of the billed animals by service, and of the fat that they were charged for. */
  workCost: Record<ServiceCode | 'fat', number>;
  income: IncomeGroup[];
  /** Bought fat in the season's grinds, compared with the fat charges. */
  fat: { usedGrams: number; unpricedGrams: number; cost: number; chargedMinor: number };
  quotes: {
    /** Quoted animals that are finished, as the season's quotes kept count them, and those of them outside the quoted take-home. */
    meat: { compared: number; missed: number };
    /** Bills that follow a quoted price, and those of them outside it. */
    bills: { compared: number; missed: number };
    missed: QuoteMiss[];
  };
}

export interface PricesTried {
  season: number;
  animals: number;
  thenMinor: number;
  nowMinor: number;
  /** Of the animals: those whose bill has discounts, free lines or other prices of its own, which are counted here as well. */
  adjusted: number;
  /** Of the animals: those that went back as they came, charged only for what was done. */
  unprocessed: number;
  /** By code and basis: a line that only one side has is 0 on the other. Tax is the last line. */
  lines: { code: string; label: string; basis: string; thenMinor: number; nowMinor: number }[];
  species: { code: string; name: string; animals: number; thenMinor: number; nowMinor: number }[];
  /** The animals with the largest change. */
  most: { ticket: string; speciesName: string; thenMinor: number; nowMinor: number }[];
  /** Products with a price now that bills from before kinds counted as plain grind, and that stay so here. */
  notSplit: string[];
  /** Where these prices and the list of products do not meet. */
  gaps: PriceGaps;
}
