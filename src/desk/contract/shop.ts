/** The shop, its hunters and its books, as a window sees them. */
import type { Problem } from './problem.ts';
import type { Instructions } from './instructions.ts';
import type { PricedLine } from './price.ts';
import type { RecordField, RecordSet } from './record.ts';
import type { FatChoice, Grade } from './words.ts';
import type { ProductKind } from '../../trade/product.ts';

export interface ShopSettings {
  shopName: string;
  /** The letterhead; each may be empty. */
  shopAddress: string;
  shopPhone: string;
  shopLicense: string;
  shopTaxNumber: string;
  /** Small print of bills, quotes and receipts, as plain text. */
  terms: string;
  /** Small print of the drop-off receipt: storage, pickup deadline, deposit. */
  dropOffTerms: string;
  /** How hunters pay, in the order that they are offered. `cash` is always among them: it is what the till counts. */
  paymentMethods: string[];
  unit: 'lb' | 'kg';
  /** Scale step in the shop's unit, e.g. 0.02. */
  step: number;
  currency: string;
  locale: string;
  /** In which order dates are written and typed; `locale`: as its language and country have it. */
  dayOrder: 'locale' | 'month first' | 'day first' | 'year first';
  clock: 'locale' | '12' | '24';
  zone: string;
  /** First month (1–12) of a season: with 7, January belongs to the season before. */
  seasonStartsMonth: number;
  hangingReadyDays: number;
  hangingLimitDays: number;
  coolerLimitC: number;
  quoteValidDays: number;
  /** What is ready and waits longer is marked. */
  pickupLimitDays: number;
  /** The shop's own words at the end of the message to a hunter: opening hours, address. */
  pickupMessage: string;
  /** Every so many animals is cut in detail, the first of a season among them; 1: all of them. */
  detailEvery: number;
  /** Whether an animal on hold may be cut before its result; it is never handed over before. */
  cutWhileHeld: boolean;
  /** The agency's list that the shop keeps its record book by. */
  recordSet: string;
  /** What an entry must have, by that list and the shop's own wish. */
  recordFields: RecordField[];
  /** Whole years for which an entry is kept after the animal left. */
  retentionYears: number;
  /** Days after which writing an animal down counts as late. */
  lateDays: number;
  secondBackupFolder: string;
  theme: 'light' | 'dark' | 'system';
}

export interface SpeciesCard {
  code: string;
  name: string;
  many: string;
  body: string;
  words: { male: string; female: string; young: string };
  primals: { code: string; name: string; pair: boolean; share: number }[];
  cookTo: { f: number; c: number; source: string };
  cautions: string[];
  /** Whether the shop made or changed it. */
  own: boolean;
}

/** A place in the building where cautions are shown. */
export type CautionPlace = 'intake' | 'rail' | 'table' | 'grinder' | 'label' | 'pick-up';

export interface Caution {
  code: string;
  /** What can go wrong. */
  hazard: string;
  title: string;
  text: string;
  when: 'always' | 'species' | 'positive result';
  shown: CautionPlace[];
  /** Where published figures differ: who says what, and which is told. */
  differs: string | null;
  source: string;
  url: string;
  /** The day on which the source was read. */
  read: string;
}

export type { ProductKind };

/** Something the shop makes, with what it is usually made of. */
export interface ProductCard {
  code: string;
  name: string;
  kind: ProductKind;
  /** Usual fat and its share; null: as the hunter says. */
  fat: FatChoice | null;
  targetFat: number | null;
  packageGrams: number | null;
  pattyGrams: number | null;
  /** What is in it beside meat and fat, as it stands on the label: 'salt, pepper, mustard seed'. */
  ingredients: string;
  own: boolean;
}

/** Cutting instructions to start from. */
export interface TemplateCard {
  /** Null for a supplied one. */
  id: number | null;
  name: string;
  /** The carcass drawing whose primals it names, or null when it fits any animal. */
  carcass: string | null;
  instructions: Instructions;
}

export interface CoolerCard {
  id: number;
  name: string;
  places: number;
  /** Animals in it now. */
  hanging: number;
  /** The newest temperature of its log, in °C. */
  last: { c: number; at: string } | null;
}

/** A cooler with what its log of the last days says against the shop's limit. */
export interface CoolerStatus extends CoolerCard {
  /** Is the newest reading above the limit? */
  above: boolean;
  minutesAbove: number;
  /** The longest time that nobody read it, the time since the newest reading among them; null without a reading. */
  longestGapMinutes: number | null;
  /** Those of the last three days, oldest first. */
  readings: { id: number; at: string; c: number; by: string }[];
}

/** How a temperature logger's file would be read. */
export interface LogPreview {
  name: string;
  degrees: 'F' | 'C';
  dates: 'day first' | 'month first';
  /** Readings that the book does not know yet, and those that it does. */
  fresh: number;
  known: number;
  from: string | null;
  to: string | null;
  lowestC: number | null;
  highestC: number | null;
  first: { at: string; typed: string; c: number }[];
  problems: { row: number; problem: Problem }[];
  problemCount: number;
}

/** A logger's file that was brought in. */
export interface CoolerLogCard {
  id: number;
  file: string;
  readings: number;
  at: string;
  by: string;
  undoneAt: string | null;
}

/** One cooler's temperatures over some days, as they are shown to an inspector. */
export interface CoolerRecord {
  cooler: string;
  from: string;
  to: string;
  limitC: number;
  readings: number;
  minutesAbove: number;
  days: {
    day: string;
    readings: number;
    lowestC: number | null;
    highestC: number | null;
    minutesAbove: number;
  }[];
  /** Times without a reading, also before the first and after the last. */
  gaps: { from: string; to: string; minutes: number }[];
  byHand: { at: string; c: number; typed: string; by: string }[];
  files: { file: string; readings: number; at: string; by: string }[];
  takenBack: { at: string; c: number; typed: string; reason: string; by: string }[];
}

export interface FatSourceCard {
  code: string;
  name: string;
  animal: 'pork' | 'beef' | 'own';
  fat: number;
  grade: Grade;
}

export interface ShopView {
  /** Which opening of a book this is: calls of the window are meant for it, and its state lasts no longer. */
  opening: string;
  /** False on a fresh book: the window greets. */
  setUp: boolean;
  demo: boolean;
  bookPath: string;
  today: string;
  season: number;
  seasons: number[];
  settings: ShopSettings;
  /** Settings of the book that cannot be used here; `settings` has what is gone by instead. */
  settingsReplaced: SettingReplaced[];
  staff: { initials: string; name: string }[];
  species: SpeciesCard[];
  /** Offered no more, but animals of them may be in the book. */
  speciesAway: SpeciesCard[];
  fatSources: FatSourceCard[];
  products: ProductCard[];
  /** Extras, and charges by the hour, of the prices in force today. */
  extras: PricedLine[];
  hourLines: PricedLine[];
  templates: TemplateCard[];
  coolers: CoolerCard[];
  cautions: Caution[];
  recordSets: RecordSet[];
  lastBackup: { at: string; path: string } | null;
  /** UTC moment of the newest entry when the computer's clock stands before it; else null. */
  clockBehind: string | null;
  clockDoubt: ClockDoubt | null;
}

/** A setting that makes no sense here: what the book says, and what is gone by until somebody chooses. */
export interface SettingReplaced {
  setting: keyof ShopSettings;
  kept: string;
  used: string;
}

/** Why nothing is written until somebody has looked at the computer's clock. */
export interface ClockDoubt {
  /** `impossible`: no year that a shop can have; else far from the newest entry of the book. */
  what: 'impossible' | 'ahead' | 'behind';
  /** The day that it was compared with, of the newest entry. */
  newest: string | null;
}

export interface HunterCard {
  id: number;
  name: string;
  phone: string;
  email: string;
  address: string;
  licence: string;
  refusesPooling: boolean;
  animals: number;
  lastTicket: string | null;
}
