/** The invented country, its hunters and the invented shop, as data that can grow without touching the generator. */
import animalsJson from '../../../resources/demo/animals.json' with { type: 'json' };
import mistakesJson from '../../../resources/demo/mistakes.json' with { type: 'json' };
import ordersJson from '../../../resources/demo/orders.json' with { type: 'json' };
import peopleJson from '../../../resources/demo/people.json' with { type: 'json' };
import pricesJson from '../../../resources/demo/prices.json' with { type: 'json' };
import seasonsJson from '../../../resources/demo/seasons.json' with { type: 'json' };
import shopJson from '../../../resources/demo/shop.json' with { type: 'json' };
import type * as v from 'valibot';
import type { Split } from '../../core/yield/tree.ts';
import type { figuresTyped } from '../../desk/costing/figures.ts';
import type { save as savePrices } from '../../desk/pricing/prices.ts';
import type { Age, Brought, FatChoice, PrimalUse } from '../../desk/contract/contract.ts';
import type { saveSettings, setUp } from '../../desk/shop/shop.ts';

export type DamageSeen = 'none' | 'some' | 'heavy';

/** One of several, drawn as often as its weight says. */
export interface Weighted<T> {
  value: T;
  weight: number;
}

export interface InventedSpecies {
  code: string;
  brought: Record<Brought, number>;
  /** Share of males. */
  male: number;
  ages: Record<Exclude<Age, 'unknown'>, number>;
  /** Spread of the logarithm of the hanging weight within one sex and age. */
  hangingSpread: number;
  /** How many come in each week of the season, relative to each other. */
  weeks: number[];
  /** Animals by season. */
  heads: Record<string, number>;
  /** Where they are hunted; none for farm stock. */
  areas: string[];
  /** How tag numbers begin. */
  tag: string;
  /** Share with a sample at the laboratory. */
  sampled: number;
  /** Share of which the fat is saved. */
  savesFat: number;
}

export interface InventedSeason {
  season: number;
  opens: string;
  /** Share of animals of which every part is weighed. */
  detailed: number;
  /** Share of animals ground through a weighed batch; the rest is packed straight off the grinder. */
  throughBatch: number;
  /** Share of hunters who came in an earlier season. */
  returning: number;
  /** The season that the demo shows: it has mistakes, holds and bought fat. */
  mistakes: boolean;
  quotes: number;
  /** Days on which sausage of several owners is made. */
  pools: string[];
}

export type SlipKind =
  'digits swapped' | 'digit missing' | 'decimal slipped' | 'kilograms as pounds' | 'weighed twice';

export interface SlipWanted {
  slip: SlipKind;
  part: string;
  species: string[];
  weeks?: number[];
  reason?: string;
  /** May be heavier than right; else only lighter slips stay. */
  heavy?: boolean;
  /** On an animal that is being cut now. */
  today?: boolean;
}

interface Staff {
  initials: string;
  name: string;
  cuts: boolean;
  /** How much better than others, in animal-to-animal spreads. */
  takeHomeShift: number;
}

export interface FatBought {
  source: string;
  supplier: string;
  lot: string;
  caseLb: number;
  keepLb: number;
  costMinor: number[];
  useByDays: number;
}

type Settings = v.InferInput<typeof saveSettings.input>['changes'];

export const SHOP = shopJson as unknown as {
  costs: Omit<v.InferInput<typeof figuresTyped>, 'by'>;
  settings: v.InferInput<typeof setUp.input> & Required<Pick<Settings, 'step' | 'zone'>> & Settings;
  staff: Staff[];
  coolers: { name: string; places: number; usualF: number }[];
  shopShift: Partial<Record<Split, number>>;
  fats: FatBought[];
};
export const PEOPLE = peopleJson;
export const ANIMALS = animalsJson as unknown as {
  sizes: Record<'male' | 'female', Record<Age, number>>;
  species: InventedSpecies[];
  conditions: string[];
  damage: Record<DamageSeen, { share: number; notes: string[] }>;
  lacks: { tag: number; killArea: number; killDate: number };
  someoneElseBrings: number;
};
export const SEASONS = seasonsJson as { seed: number; today: string; seasons: InventedSeason[] };
export const ORDERS = ordersJson as unknown as {
  cutsShare: Weighted<number>[];
  packageLb: Weighted<number>[];
  grind: Weighted<{ fat: FatChoice; targetFat: number | null }>[];
  extras: Weighted<string[]>[];
  notes: string[];
  sausage: {
    share: number;
    leastTrimLb: number;
    lb: [number, number];
    products: string[];
    /** Of each product, in the same order. */
    fats: { fat: FatChoice; targetFat: number }[];
    leastOwners: number;
    mostOwners: number;
  };
  /** Orders piece by piece: how many give them, how near they come to the share that was drawn, and what they say. */
  pieces: {
    share: number;
    nearest: number;
    uses: Record<string, PrimalUse[]>;
    sizes: Partial<Record<PrimalUse, string[]>>;
    /** Notes that say of a piece what an order by piece says itself. */
    saysTheSame: string[];
  };
  pattyOz: number;
  cuts: { product: string; share: number }[];
  /** Share of saved fat that is asked back in the grind. */
  ownFatGround: number;
  ownFatTarget: number;
  /** Share of sampled animals that are not to be cut before the result. */
  waitsForResult: number;
};
export const MISTAKES = mistakesJson as {
  left: SlipWanted[];
  corrected: SlipWanted[];
  fatTest: { nth: number; off: number };
};
export const PRICES = pricesJson as unknown as {
  books: { name: string; validFrom: string; share: number }[];
  lines: v.InferInput<typeof savePrices.input>['lines'];
};
