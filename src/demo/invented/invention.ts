/** The invented region, its hunters and the shop, as data that can grow without changes to the generator. */
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

/** A value with its relative frequency. */
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
  /** Standard deviation of the logarithm of the hanging weight within one sex and age. */
  hangingSpread: number;
  /** Relative number of animals in each week of the season. */
  weeks: number[];
  /** Number of animals by season. */
  heads: Record<string, number>;
  /** Hunting areas; none for farm stock. */
  areas: string[];
  /** Prefix of tag numbers. */
  tag: string;
  /** Share of animals with a laboratory sample. */
  sampled: number;
  /** Share of animals with saved fat. */
  savesFat: number;
}

export interface InventedSeason {
  season: number;
  opens: string;
  /** Share of animals with every part weighed. */
  detailed: number;
  /** Share of animals ground through a weighed batch; the others are packed straight off the grinder. */
  throughBatch: number;
  /** Share of hunters from earlier seasons. */
  returning: number;
  /** The current season: it has mistakes, holds and bought fat. */
  mistakes: boolean;
  quotes: number;
  /** Dates of sausage days. */
  pools: string[];
}

export type SlipKind =
  | 'digits swapped'
  | 'digit missing'
  | 'decimal slipped'
  | 'kilograms as pounds'
  | 'weighed twice';

export interface SlipWanted {
  slip: SlipKind;
  part: string;
  species: string[];
  weeks?: number[];
  reason?: string;
  /** May be heavier than the true weight; otherwise only lighter slips stay. */
  heavy?: boolean;
  /** On an animal that is being cut now. */
  today?: boolean;
}

interface Staff {
  initials: string;
  name: string;
  cuts: boolean;
  /** Deviation of the yield from others, in animal-to-animal standard deviations. */
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
  /** Where capes go, and hunters who share a friend's animal. */
  taxidermist: string;
  sharers: { name: string; phone: string; email: string; address: string; licence: string }[];
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
    /** By product, in the same order. */
    fats: { fat: FatChoice; targetFat: number }[];
    leastOwners: number;
    mostOwners: number;
  };
  /** Of a single hunter's trim. */
  jerky: { share: number; lb: [number, number]; product: string; packageOz: number };
  /** Orders by piece: their frequency, how closely they match the drawn share, and their texts. */
  pieces: {
    share: number;
    nearest: number;
    uses: Record<string, PrimalUse[]>;
    sizes: Partial<Record<PrimalUse, string[]>>;
    /** Notes that repeat what an order by piece states. */
    saysTheSame: string[];
  };
  pattyOz: number;
  cuts: { product: string; share: number }[];
  /** Share of saved fat that goes back into the grind. */
  ownFatGround: number;
  ownFatTarget: number;
  /** Share of sampled animals that wait for the result before cutting. */
  waitsForResult: number;
};
export const MISTAKES = mistakesJson as {
  left: SlipWanted[];
  corrected: SlipWanted[];
  fatTest: { nth: number; off: number };
  /** The day on which a load came out whose logger had stopped: nobody has decided on it yet. */
  loggerStopped: string;
};
export const PRICES = pricesJson as unknown as {
  books: { name: string; validFrom: string; share: number }[];
  lines: v.InferInput<typeof savePrices.input>['lines'];
};
