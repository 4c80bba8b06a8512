/** Fat on hand, plans and batches. */
import type { AffectedBy } from './affected.ts';
import type { WeighingRow } from './weighing.ts';
import type { FatKeeps, LeftOutLot, LotNamed } from './fat.ts';
import type { OrderRecipe } from './shop.ts';
import type { FatChoice, WeighSource } from './words.ts';

export interface FatLotRow {
  id: number;
  code: string;
  source: string;
  name: string;
  /** Ticket of the animal whose own fat this is, or null for bought fat. */
  ticket: string | null;
  fat: number;
  costMinor: number | null;
  costUnit: 'lb' | 'kg' | null;
  supplierLot: string;
  useBy: string | null;
  receivedOn: string;
  startGrams: number;
  leftGrams: number;
  keeps: FatKeeps;
}

/** One ordered ground product, and the trim for it. */
export interface GrindWant {
  product: string;
  fat: FatChoice;
  targetFat: number | null;
  /** Weight of a patty, or null for bulk. */
  pattyGrams: number | null;
  /** As ordered: the recipe that it names. */
  recipeId?: number | null | undefined;
  /** Trim that is still to go into it. */
  grams: number;
}

/** One that waits, with the recipe that it is made by; null: ground with the fat of the order. */
export interface WaitingWant extends GrindWant {
  recipe: Pick<OrderRecipe, 'id' | 'name' | 'meat'> | null;
}

/** A ground product of a cut sheet, and the fat in it, or the recipe that says what is in it. */
export type OrderedFat = Pick<GrindWant, 'product' | 'fat' | 'targetFat'> & {
  recipe: { name: string } | null;
};

export interface GrinderView {
  waiting: {
    id: number;
    ticket: string;
    hunter: string;
    speciesName: string;
    trimLeftGrams: number;
    ownFatLeftGrams: number;
    trimFat: { mean: number; sd: number };
    /** The ordered products, in the order to grind them; at least one. */
    wants: WaitingWant[];
    refusesPooling: boolean;
    /** Reason of a hold, or `positive`; null without one. */
    hold: string | null;
  }[];
  open: BatchLine[];
  recent: BatchLine[];
  fat: FatLotRow[];
  /** Batches of the season with held meat, without a later cleaning of the grinder. */
  uncleaned: Uncleaned[];
  /** The newest cleanings of the grinder, newest first. */
  cleanings: Cleaning[];
}

/** One disassembly and cleaning of the grinder. */
export interface Cleaning {
  id: number;
  how: string;
  at: string;
  by: string;
}

/** An animal on hold. */
export interface HeldIn {
  ticket: string;
  /** Its test was positive. */
  positive: boolean;
}

/** A batch with meat of animals on hold, after which the grinder must be cleaned. */
export interface Uncleaned {
  batchId: number;
  batch: string;
  held: HeldIn[];
  /** Number of batches at the grinder since. */
  since: number;
}

/** A batch with meat of animals on hold, and the batches that the grinder carried it into. */
export interface HeldGrind {
  batchId: number;
  batch: string;
  held: HeldIn[];
  /** The first cleaning after it was ground; null without one. */
  cleaned: Cleaning | null;
  /** Other batches at the grinder between its first weight and that cleaning. */
  between: { id: number; name: string; tickets: string[] }[];
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
  /** Tickets of positive animals whose meat reached it. */
  affectedBy: string[];
}

export interface PlanPart {
  key: string;
  kind: 'trim' | 'fat';
  /** Of the animal whose trim or own fat it is. */
  ticket: string | null;
  /** What the lot is of, and its code; null for trim. */
  fatName: string | null;
  lotCode: string | null;
  /** The animal of the trim or own fat; null for bought fat. */
  animalId: number | null;
  fatLotId: number | null;
  /** The weight to add, in whole scale steps of the shop's unit. */
  grams: number;
  share: number;
  fat: number;
}

/** A plan, and the lots of the chosen fat that it excludes. */
export type GrindPlan = BlendPlan & { leftOut: LeftOutLot[] };

export type BlendPlan =
  | {
      kind: 'plan';
      parts: PlanPart[];
      batchGrams: number;
      fat: number;
      /** The 9-in-10 range of such batches, from the spread of each source's fat. */
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
      /** Null: the meat of a recipe is short, which has no target. */
      target: number | null;
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
  /** Sizes of patties in grams that its owners ordered, without duplicates; none: in bulk. */
  patties: number[];
  /** The package size that its first owner ordered; null without an owner. */
  packageGrams: number | null;
  /** What each animal's cut sheet says of ground meat. */
  orders: { ticket: string; wants: OrderedFat[] }[];
  /** The recipe that all of its owners' cut sheets make this product by; null where they name none, or several. */
  recipe: Pick<OrderRecipe, 'id' | 'name'> | null;
  /** Batches of the smokehouse that were opened on it. */
  made: { id: number; name: string }[];
  /** The fat that its plan adds; null if none was chosen because the trim alone reached the target. */
  addedFat: FatChoice | null;
  planned: PlanPart[];
  plannedFat: number | null;
  weighedIn: (WeighingRow & { ticket: string | null; fatLot: string | null; fat: number })[];
  inGrams: number;
  /** Fat of the weights added so far; null without any. */
  fat: number | null;
  fatRange: { low: number; high: number } | null;
  fatAddedGrams: number;
  /** Still to be added by the plan. */
  toWeigh: PlanPart[];
  /** The addition that would bring the batch to its target, or null when it is reached. */
  topUp: (LotNamed & { grams: number; fatLotId: number; fat: number; leftGrams: number }) | null;
  /** Bought fat of the plan that is no longer on hand; null where there is enough. */
  shortFat: { source: string; name: string; grams: number } | null;
  packages: {
    id: number;
    product: string;
    count: number;
    typed: string;
    grams: number;
    source: WeighSource;
    /** Freezer place, or null if unknown. */
    place: string | null;
    at: string;
    by: string;
  }[];
  outGrams: number;
  /** Its product is smoked or dried: it weighs less when it is packed. */
  losesWater: boolean;
  /** What somebody said when more came out than went in, or null. */
  whyMoreOut: { reason: string; by: string } | null;
  /** Each time that it was reopened after it was finished. */
  reopened: { reason: string; at: string; by: string }[];
  fatTests: { fat: number; method: string; at: string; by: string }[];
  /**
   * Of a batch with held meat: what went through the grinder after it, up to the next cleaning; null without held
   * meat.
   */
  heldGrind: HeldGrind | null;
  /** Batches with held meat that went through the grinder before this one, without a cleaning in between. */
  throughBefore: { batchId: number; batch: string; held: HeldIn[] }[];
  /** Positive animals whose meat reached this batch. */
  affectedBy: AffectedBy[];
  passes: { pass: number; plate: string; tempC: number | null; at: string; by: string }[];
  owners: BatchOwner[];
}

/** One owner of a batch. Grams are exact; displayed ones are in whole scale steps, so that a column adds up. */
interface BatchOwner {
  ticket: string;
  hunter: string;
  leanGrams: number;
  shareGrams: number;
  shownLeanGrams: number;
  shownShareGrams: number;
  packages: number;
}
