/** The shop, its settings and its shelves. */
import type { Problem } from './problem.ts';
import type { Instructions } from './instructions.ts';
import type { PricedLine } from './price.ts';
import type { DonationProgram } from './donation.ts';
import type { RecordField, RecordSet } from './record.ts';
import type { FatChoice, Grade } from './words.ts';
import type { ProductKind } from '../../trade/product.ts';
import type { HunterLanguage } from '../../words/hunter-language.ts';

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
  /** The same in other languages of hunters; where there is none, they read the shop's own. */
  dropOffTermsIn: Partial<Record<HunterLanguage, string>>;
  /** How hunters pay, in the order that they are offered. `cash` is always among them: it is what the till counts. */
  paymentMethods: string[];
  unit: 'lb' | 'kg';
  /** Scale step in the shop's unit, e.g. 0.02. */
  step: number;
  /** Step of the small scale, for cure and seasoning, in grams. */
  smallStep: number;
  currency: string;
  locale: string;
  /** The order in which dates are written and typed; `locale`: that of its language and country. */
  dayOrder: 'locale' | 'month first' | 'day first' | 'year first';
  clock: 'locale' | '12' | '24';
  zone: string;
  /** First month (1–12) of a season: with 7, January belongs to the previous one. */
  seasonStartsMonth: number;
  hangingReadyDays: number;
  hangingLimitDays: number;
  coolerLimitC: number;
  quoteValidDays: number;
  /** Ready animals that wait longer are marked. */
  pickupLimitDays: number;
  /** The shop's own text at the end of the message to a hunter: opening hours, address. */
  pickupMessage: string;
  /** What may come with an animal, beside the list that the program brings. */
  belongingKinds: string[];
  /** Days from ready to the first, the second and the last notice to a hunter who does not come. */
  unclaimedFirstDays: number;
  unclaimedSecondDays: number;
  unclaimedLastDays: number;
  donationPrograms: DonationProgram[];
  /** One in so many animals is weighed in detail, the first of a season included; 1: all of them. */
  detailEvery: number;
  /** Whether an animal on hold may be cut before its result; it is never handed over before. */
  cutWhileHeld: boolean;
  /** The agency's list for the shop's record book. */
  recordSet: string;
  /** The required fields of an entry, by that list and the shop's own choice. */
  recordFields: RecordField[];
  /** Retention period of an entry after the animal left, in whole years. */
  retentionYears: number;
  /** Days after which an intake entry counts as late. */
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

/** A place in the window where cautions are shown. */
export type CautionPlace = 'intake' | 'rail' | 'table' | 'grinder' | 'label' | 'pick-up' | 'unclaimed';

export interface Caution {
  code: string;
  /** The hazard. */
  hazard: string;
  title: string;
  /** The title in a line of several, where it is too long for it; null: as it is. */
  short: string | null;
  text: string;
  when: 'always' | 'species' | 'positive result';
  shown: CautionPlace[];
  /** Where published figures differ: each with its source, and which one is shown. */
  differs: string | null;
  source: string;
  url: string;
  /** The day on which the source was read. */
  read: string;
}

export type { ProductKind };

/** A product of the shop, with its usual composition. */
export interface ProductCard {
  code: string;
  name: string;
  kind: ProductKind;
  /** Usual fat and its share; null: as ordered. */
  fat: FatChoice | null;
  targetFat: number | null;
  packageGrams: number | null;
  pattyGrams: number | null;
  /** Ingredients besides meat and fat, as on the label: 'salt, pepper, mustard seed'. */
  ingredients: string;
  own: boolean;
}

/** A cutting template. */
export interface TemplateCard {
  /** Null for a supplied one. */
  id: number | null;
  name: string;
  /** The carcass drawing of its primals, or null for any animal. */
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

/** A cooler with its recent log compared with the shop's limit. */
export interface CoolerStatus extends CoolerCard {
  /** Whether the newest reading is above the limit. */
  above: boolean;
  minutesAbove: number;
  /** The longest time without a reading, up to now included; null without a reading. */
  longestGapMinutes: number | null;
  /** Readings of the last three days, oldest first. */
  readings: { id: number; at: string; c: number; by: string }[];
}

/** A preview of a temperature logger's file. */
export interface LogPreview {
  name: string;
  degrees: 'F' | 'C';
  dates: 'day first' | 'month first';
  /** Readings that are new to the book, and those already in it. */
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

/** An imported logger file. */
export interface CoolerLogCard {
  id: number;
  file: string;
  readings: number;
  at: string;
  by: string;
  undoneAt: string | null;
}

/** One cooler's temperatures over some days, for an inspector. */
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
  voided: { at: string; c: number; typed: string; reason: string; by: string }[];
}

export interface FatSourceCard {
  code: string;
  name: string;
  animal: 'pork' | 'beef' | 'own';
  fat: number;
  grade: Grade;
}

/** A recipe that a grind of a cut sheet may be made by: it takes game. */
export interface OrderRecipe {
  id: number;
  name: string;
  product: string;
  /** Shares of the meat. */
  meat: { name: string; share: number }[];
}

export interface ShopView {
  /** The opening of the book: calls of the window are meant for it, and its state ends with it. */
  opening: string;
  /** False for a new book: the window shows the first start. */
  setUp: boolean;
  demo: boolean;
  /** Set where a ledger is on, so that the owner's view of all shops has something to ask. */
  ledger?: true;
  bookPath: string;
  today: string;
  season: number;
  seasons: number[];
  settings: ShopSettings;
  /** Invalid settings of the book; `settings` has their replacements. */
  settingsReplaced: SettingReplaced[];
  staff: { initials: string; name: string }[];
  species: SpeciesCard[];
  /** No longer offered, but animals of them may be in the book. */
  speciesAway: SpeciesCard[];
  fatSources: FatSourceCard[];
  products: ProductCard[];
  recipes: OrderRecipe[];
  /** Extras, and charges by the hour, of the prices in force today. */
  extras: PricedLine[];
  hourLines: PricedLine[];
  templates: TemplateCard[];
  coolers: CoolerCard[];
  cautions: Caution[];
  recordSets: RecordSet[];
  lastBackup: { at: string; path: string } | null;
  /** UTC moment of the newest entry when the computer's clock is behind it; else null. */
  clockBehind: string | null;
  clockDoubt: ClockDoubt | null;
}

/** An invalid setting: its stored value, and its replacement until somebody chooses. */
export interface SettingReplaced {
  setting: keyof ShopSettings;
  kept: string;
  used: string;
}

/** Why writes are refused until somebody has checked the computer's clock. */
export interface ClockDoubt {
  /** `impossible`: an invalid year; else far from the newest entry of the book. */
  what: 'impossible' | 'ahead' | 'behind';
  /** The day of the newest entry, with which it was compared. */
  newest: string | null;
}

export interface HunterCard {
  id: number;
  name: string;
  phone: string;
  email: string;
  address: string;
  licence: string;
  /** Of what the hunter gets; '' for the shop's. */
  language: HunterLanguage | '';
  refusesPooling: boolean;
  animals: number;
  lastTicket: string | null;
}
