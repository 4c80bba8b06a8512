/** Quotes, as a window sees them. */
import type { Unpriced } from './price.ts';
import type { LossForecast } from './smokehouse/made.ts';
import type { GramsRange } from './smokehouse/proof.ts';
import type { FromOthers } from './lessons.ts';
import type { Range, SourceNote } from './words.ts';

export interface QuoteLine {
  code: string;
  label: string;
  /** What it is charged by, as in the price book; 'tax' for the tax; '' in a quote saved before this was kept. */
  basis: string;
  /** How much of it, in the unit of the line, for a percentage the rate; null for tax and in old quotes. */
  quantity: Range | null;
  unit: 'lb' | 'kg' | null;
  /** The price of one; for a percentage and for a smallest charge the sum most likely. */
  unitPriceMinor: number | null;
  low: number;
  mean: number;
  high: number;
}

/** A product made by a recipe. */
export interface QuotedRecipe {
  recipeId: number;
  name: string;
  trimGrams: Range;
  /** Meat and fat bought for it. */
  boughtGrams: Range;
  /** "10 lb of sticks take about 16 lb of trim". */
  takes: { finishedGrams: number; trim: GramsRange };
  forecast: LossForecast;
}

export interface QuoteResult {
  hangingGrams: Range;
  /** Between what a whole animal of the species hangs at, if the weight given lies outside of it; else null. Quotes saved before lack it. */
  unlikely?: { least: number; most: number } | null;
  takeHomeGrams: Range;
  parts: { part: string; grams: Range }[];
  /** Only for products made into patties. */
  products: {
    product: string;
    grams: Range;
    packages: Range;
    patties: Range | null;
    /** Of what is made by a recipe of the smokehouse, else null; quotes saved before lack it. */
    recipe?: QuotedRecipe | null;
  }[];
  fatToBuyGrams: Range;
  price: {
    currency: string;
    lines: QuoteLine[];
    low: number;
    mean: number;
    high: number;
    exampleBook: boolean;
    /** What it charges nothing for, because no line is for it; none in a quote saved before this was told. */
    unpriced: Unpriced[];
    /** Lines that a product without a price may be charged as. */
    chargeable: { code: string; label: string }[];
  } | null;
  restsOn: {
    ownAnimals: number;
    /** Animals that other shops told of; absent in a quote saved before they could. */
    others?: FromOthers | null;
    relatives: boolean;
    /** Where the take-home share is from before the shop's own animals; without a grade in a quote saved before it had one. */
    takeHome: QuotedSource;
    /** Source of the ratio from the quoted weight to the hanging weight; null without conversion. */
    weight: QuotedSource | null;
  };
}

/** As stated when the quote was made. */
export type QuotedSource = Pick<SourceNote, 'source'> & { grade: SourceNote['grade'] | null };

export interface QuoteSaved {
  id: number;
  name: string;
  validUntil: string;
}
