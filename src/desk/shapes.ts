/**
 * What the desk answers with: plain objects that survive structured clone and JSON.
 * Masses are grams, shares and fat are fractions, money is integer minor units, dates are `YYYY-MM-DD`,
 * moments are UTC ISO text. The window turns them into words and the shop's units.
 */

export type MassUnit = 'lb' | 'oz' | 'kg' | 'g';
export type Sex = 'male' | 'female' | 'unknown';
export type Age = 'young' | 'yearling' | 'adult' | 'unknown';
export type Brought = 'whole' | 'skinned' | 'quarters' | 'primals' | 'boned';
export type AnimalStage = 'hanging' | 'cutting' | 'packing' | 'ready' | 'released' | 'disposed';
/** Parts weighed at the table. */
export type CutPart = 'whole cuts' | 'trim' | 'fat saved' | 'sinew' | 'bone' | 'damage';
/** Where in the flow a weight was taken. */
export type WeighStage =
  'live' | 'dressed' | 'received' | 'hanging' | 'primal' | 'cut' | 'grinder' | 'packed';
/** What is asked for as fat in a grind: nothing, the animal's own, or a bought source's code. */
export type FatChoice = 'none' | 'own' | (string & {});

export interface Range {
  low: number;
  mean: number;
  high: number;
}

/* ---- the shop ---- */

export interface ShopSettings {
  shopName: string;
  unit: 'lb' | 'kg';
  /** Scale step in the shop's unit, e.g. 0.02. */
  step: number;
  currency: string;
  locale: string;
  zone: string;
  /** First month (1–12) of a season: with 7, January belongs to the season before. */
  seasonStartsMonth: number;
  hangingReadyDays: number;
  hangingLimitDays: number;
  coolerLimitC: number;
  quoteValidDays: number;
  secondBackupFolder: string;
  theme: 'light' | 'dark' | 'system';
}

export interface SpeciesCard {
  code: string;
  name: string;
  many: string;
  body: string;
  words: { male: string; female: string; young: string };
  primals: { code: string; name: string; pair: boolean }[];
  cookTo: { f: number; c: number; source: string };
  cautions: string[];
}

export interface Caution {
  code: string;
  title: string;
  text: string;
  source: string;
}

export interface FatSourceCard {
  code: string;
  name: string;
  animal: 'pork' | 'beef' | 'own';
  fat: number;
}

export interface ShopLook {
  /** False on a fresh book: the window greets. */
  setUp: boolean;
  demo: boolean;
  bookPath: string;
  today: string;
  season: number;
  seasons: number[];
  settings: ShopSettings;
  staff: { initials: string; name: string }[];
  species: SpeciesCard[];
  fatSources: FatSourceCard[];
  cautions: Caution[];
  lastBackup: { at: string; path: string } | null;
}

/* ---- hunters ---- */

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

/* ---- the rail ---- */

export type HangState = 'fresh' | 'ready' | 'late' | 'over';

export interface Hook {
  id: number;
  ticket: string;
  species: string;
  speciesName: string;
  hunter: string;
  brought: Brought;
  stage: AnimalStage;
  days: number;
  state: HangState;
  hold: string | null;
  /** Hanging weight, else weight received, else null. */
  grams: number | null;
  promisedOn: string | null;
}

export interface RailLook {
  hooks: Hook[];
  ready: {
    id: number;
    ticket: string;
    hunter: string;
    speciesName: string;
    days: number;
    hold: string | null;
  }[];
  counts: { hanging: number; cutting: number; packing: number; ready: number; hangingGrams: number };
  limitDays: number;
  /** Ticket numbers of trim waiting for the grinder. */
  trimWaiting: number;
}

/* ---- one animal ---- */

export interface Instructions {
  /** Share of the take-home lean kept as steaks and roasts; the rest is ground. */
  cutsShare: number;
  fat: FatChoice;
  targetFat: number | null;
  grindProduct: string;
  packageGrams: number;
  extras: string[];
  note: string;
}

export interface WeighingRow {
  id: number;
  stage: WeighStage;
  part: string;
  primal: string | null;
  product: string | null;
  count: number | null;
  typed: string;
  unit: MassUnit;
  tareTyped: string | null;
  grams: number;
  at: string;
  by: string;
  note: string;
  batch: string | null;
  corrects: number | null;
  voided: { reason: string; by: string; at: string } | null;
}

export interface LadderPiece {
  part: CutPart | 'primal' | 'rest';
  grams: number;
  share: number;
}

export interface Suspect {
  weighingId: number;
  stage: WeighStage;
  part: string;
  typed: string;
  grams: number;
  /** Standard deviations by which the reading is out. */
  z: number;
  /** What was probably meant, as text that can be typed, and by which slip. */
  likely: { typed: string; kind: string } | null;
}

export interface AnimalPage {
  id: number;
  ticket: string;
  species: SpeciesCard;
  sex: Sex;
  age: Age;
  brought: Brought;
  parts: { primal: string; count: number }[];
  origin: 'hunter' | 'farm';
  hunter: HunterCard;
  licence: string;
  tag: string;
  killDate: string | null;
  killArea: string;
  receivedOn: string;
  promisedOn: string | null;
  condition: string;
  damage: string;
  detail: 'detailed' | 'quick';
  stage: AnimalStage;
  days: number;
  hangState: HangState;
  hold: { id: number; reason: string; sample: string; openedAt: string } | null;
  instructions: Instructions;
  weighings: WeighingRow[];
  weights: { receivedGrams: number | null; hangingGrams: number | null };
  /** The bar: everything weighed at the table against hanging weight (or weight received). Null without a base. */
  ladder: {
    baseGrams: number;
    base: 'hanging' | 'received';
    pieces: LadderPiece[];
    restGrams: number;
  } | null;
  /** Shares of the base that 8 in 10 such animals fall in. */
  expected: { part: CutPart | 'take-home' | 'shrink'; low: number; high: number }[];
  expectedFrom: { ownAnimals: number; source: string };
  balance: { suspects: Suspect[]; pValue: number | null; overGrams: number };
  trimGrams: number;
  trimLeftGrams: number;
  ownFat: { lotId: number; grams: number; leftGrams: number } | null;
  takeHomeGrams: number;
  batches: { id: number; name: string; product: string; state: 'open' | 'done' }[];
  packages: { product: string; count: number; grams: number; batch: string | null }[];
  release: { to: string; on: string; by: string } | null;
}

/* ---- fat on hand ---- */

export interface FatLotRow {
  id: number;
  code: string;
  source: string;
  name: string;
  /** Ticket whose own fat this is, or null for bought fat. */
  ticket: string | null;
  fat: number;
  costMinor: number | null;
  costUnit: 'lb' | 'kg' | null;
  supplierLot: string;
  useBy: string | null;
  receivedOn: string;
  startGrams: number;
  leftGrams: number;
}

/* ---- the grinder ---- */

export interface GrinderLook {
  waiting: {
    id: number;
    ticket: string;
    hunter: string;
    speciesName: string;
    trimLeftGrams: number;
    ownFatLeftGrams: number;
    trimFat: { mean: number; sd: number };
    wants: { fat: FatChoice; targetFat: number | null; product: string };
    refusesPooling: boolean;
  }[];
  open: BatchLine[];
  recent: BatchLine[];
  fat: FatLotRow[];
}

export interface BatchLine {
  id: number;
  name: string;
  product: string;
  tickets: string[];
  state: 'open' | 'done';
  targetFat: number | null;
  fat: number | null;
  inGrams: number;
  at: string;
}

export interface PlanPart {
  key: string;
  kind: 'trim' | 'fat';
  label: string;
  ticket: string | null;
  /** Whose trim or own fat it is; null for bought fat. */
  animalId: number | null;
  fatLotId: number | null;
  /** What to weigh, in whole scale steps of the shop's unit. */
  grams: number;
  share: number;
  fat: number;
}

export type BlendPlan =
  | {
      kind: 'plan';
      parts: PlanPart[];
      batchGrams: number;
      fat: number;
      /** Where 9 in 10 such batches fall, from the spread of each source's fat. */
      fatRange: { low: number; high: number };
      fatToAddGrams: number;
      costMinor: number;
    }
  | {
      kind: 'lean enough';
      fat: number;
      target: number;
      parts: PlanPart[];
      batchGrams: number;
      leanToAddGrams: number | null;
    }
  | {
      kind: 'not enough fat';
      target: number;
      haveGrams: number;
      needGrams: number;
      missingGrams: number;
      nearest: { parts: PlanPart[]; batchGrams: number; fat: number };
    }
  | {
      kind: 'out of reach';
      target: number;
      richest: number;
      nearest: { parts: PlanPart[]; batchGrams: number; fat: number };
    };

export interface BatchPage {
  id: number;
  name: string;
  product: string;
  state: 'open' | 'done';
  at: string;
  targetFat: number | null;
  cookTo: { f: number; c: number; source: string };
  species: string[];
  planned: PlanPart[];
  plannedFat: number | null;
  weighedIn: (WeighingRow & { ticket: string | null; fatLot: string | null; fat: number })[];
  inGrams: number;
  /** Fat of what was really weighed in; null before anything was. */
  fat: number | null;
  fatRange: { low: number; high: number } | null;
  fatAddedGrams: number;
  /** Still to weigh in against the plan. */
  toWeigh: PlanPart[];
  /** What would still bring the batch to its target, or null when it is there. */
  topUp: { grams: number; label: string; leftGrams: number } | null;
  packages: {
    id: number;
    product: string;
    count: number;
    typed: string;
    grams: number;
    at: string;
    by: string;
  }[];
  outGrams: number;
  fatTests: { fat: number; method: string; at: string; by: string }[];
  passes: { pass: number; plate: string; tempC: number | null; at: string; by: string }[];
  owners: { ticket: string; hunter: string; leanGrams: number; shareGrams: number; packages: number }[];
}

/* ---- quote ---- */

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

/* ---- season ---- */

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

/* ---- books ---- */

export interface RecordRow {
  id: number;
  ticket: string;
  hunter: string;
  address: string;
  licence: string;
  tag: string;
  speciesName: string;
  sex: Sex;
  killDate: string | null;
  killArea: string;
  receivedOn: string;
  releasedOn: string | null;
  releasedTo: string | null;
  stage: AnimalStage;
  /** Codes of what an officer would find missing. */
  lacks: string[];
}

export interface PriceLineRow {
  code: string;
  label: string;
  basis: string;
  amountMinor: number | null;
  rate: number | null;
  unit: 'lb' | 'kg' | null;
  species: string[] | null;
  brought: Brought[] | null;
  product: string | null;
  fatSource: string | null;
  taxRate: number;
}

export interface PriceBookLook {
  id: number;
  name: string;
  validFrom: string;
  currency: string;
  example: boolean;
  lines: PriceLineRow[];
}
