/** Quotes and the season, as a window sees them. */
import type { Range } from './shapes-words.ts';

export interface QuoteLine {
  code: string;
  label: string;
  low: number;
  mean: number;
  high: number;
}

export interface QuoteResult {
  hangingGrams: Range;
  takeHomeGrams: Range;
  parts: { part: string; grams: Range }[];
  products: { product: string; grams: Range; packages: Range }[];
  fatToBuyGrams: Range;
  price: {
    currency: string;
    lines: QuoteLine[];
    low: number;
    mean: number;
    high: number;
    exampleBook: boolean;
  } | null;
  restsOn: { ownAnimals: number; relatives: boolean; source: string };
}

export interface QuoteSaved {
  id: number;
  name: string;
  validUntil: string;
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
  control: { centre: number; lower: number; upper: number; outside: number[] } | null;
}
