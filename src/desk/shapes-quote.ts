/** Quotes and the season, as a window sees them. */
import type { Range } from './shapes-words.ts';

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

export interface QuoteResult {
  hangingGrams: Range;
  takeHomeGrams: Range;
  parts: { part: string; grams: Range }[];
  /** Patties where it is made into some. */
  products: { product: string; grams: Range; packages: Range; patties: Range | null }[];
  fatToBuyGrams: Range;
  price: {
    currency: string;
    lines: QuoteLine[];
    low: number;
    mean: number;
    high: number;
    exampleBook: boolean;
  } | null;
  restsOn: {
    ownAnimals: number;
    relatives: boolean;
    source: string;
    /** Where the ratio was published that turned the weight told into a hanging weight; empty where none was needed. */
    weightSource: string;
  };
}

export interface QuoteSaved {
  id: number;
  name: string;
  validUntil: string;
}

/** A quote whose animal came and is finished, beside what came of it. */
export interface QuoteKept {
  ticket: string;
  quote: string;
  speciesName: string;
  /** Take-home as quoted, and as it was, with bought fat. */
  quotedGrams: Range;
  takeHomeGrams: number;
  /** The weight that the quote was made for, and what it came to on the hook, in grams. */
  toldGrams: number;
  hungGrams: number;
}

export interface SeasonLook {
  season: number;
  animals: number;
  takeHomeGrams: number;
  species: {
    code: string;
    name: string;
    points: { id: number; ticket: string; share: number; season: number }[];
    n: number;
    median: number | null;
    published: { low: number; high: number; source: string } | null;
    /** What the next quote for this species rests on now, and what it was before any of the shop's own animals. */
    believed: { low: number; mean: number; high: number };
    prior: { low: number; mean: number; high: number };
  }[];
  batches: {
    id: number;
    name: string;
    at: string;
    target: number | null;
    planned: number | null;
    weighedIn: number | null;
    tested: number | null;
    species: string[];
  }[];
  quotes: {
    kept: QuoteKept[];
    /** Within which the number inside falls 19 times in 20, where the quotes are honest. */
    honest: { low: number; high: number };
  };
  control: { centre: number; lower: number; upper: number; outside: number[] } | null;
}
