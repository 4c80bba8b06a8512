/** The rail and one animal, as a window sees them. */
import type { RecordField } from './record.ts';
import type { BillState } from './bill.ts';
import type { HeldGrind } from './grinder.ts';
import type { Instructions } from './instructions.ts';
import type { WeighingRow } from './weighing.ts';
import type { HunterCard, SpeciesCard } from './shop.ts';
import type {
  Age,
  AnimalStage,
  Brought,
  CutPart,
  Legs,
  NonePart,
  Sex,
  SourceNote,
  TestResult,
  WeighStage,
} from './words.ts';

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
  /** Reason of a hold, or `positive`. */
  hold: string | null;
  /** Hanging weight, else weight received, else null. */
  grams: number | null;
  promisedOn: string | null;
  /** Cooler and place, or null while nobody said. */
  where: string | null;
}

/** Why an animal is next under the knife. */
export type CutReason = 'over-limit' | 'promised' | 'late' | 'ready' | 'light' | 'oldest';

export interface NextCut {
  id: number;
  ticket: string;
  why: CutReason;
}

export interface RailView {
  hooks: Hook[];
  /** What may be cut now, first first. */
  next: NextCut[];
  ready: {
    id: number;
    ticket: string;
    hunter: string;
    speciesName: string;
    days: number;
    hold: string | null;
    /** Ground together with meat on hold: it is not handed over yet. */
    waits: boolean;
  }[];
  counts: { hanging: number; cutting: number; packing: number; ready: number; hangingGrams: number };
  limitDays: number;
  /** Ticket numbers of trim waiting for the grinder. */
  trimWaiting: number;
}

/** A part that somebody stated there is none of. */
export interface PartNone {
  id: number;
  part: NonePart;
  at: string;
  by: string;
}

export interface LadderPiece {
  part: CutPart | 'primal' | 'rest';
  grams: number;
  share: number;
}

/** One primal of an animal on the carcass map. Masses in grams. */
export interface PrimalWeighed {
  code: string;
  name: string;
  pair: boolean;
  /** Pieces that came in; 0 when this one did not. */
  brought: number;
  /** Weighed so far, all readings together; null before the first. */
  grams: number | null;
  /** Of what the animal weighs (hanging, or as it came in); null without such a weight. */
  share: number | null;
  /** Where 8 in 10 such animals lie; null without a weight of the animal. */
  usual: { low: number; high: number } | null;
  /** Far from its usual weight, or doubted by the balance. */
  odd: boolean;
  /** What is on the book can only be one side of two. */
  oneSide: boolean;
}

export interface Suspect {
  weighingId: number;
  stage: WeighStage;
  part: string;
  /** Code of the primal that was weighed. */
  primal: string | null;
  typed: string;
  grams: number;
  /** What was probably meant, as text that can be typed, and by which slip. */
  likely: { typed: string; kind: string } | null;
  /** Whether the same container was probably weighed twice: taking one back explains what is too much. */
  twice: boolean;
  /** Whether it probably belongs to another animal: without it the others fit. */
  otherAnimal: boolean;
}

/** Packages of an animal: its own, or its share of a batch. */
interface PackagesRow {
  product: string;
  count: number;
  grams: number;
  batch: string | null;
  /** Where they lie in the freezer: one place, or several of a batch; empty while nobody said. */
  places: string[];
}

export interface AnimalPage {
  id: number;
  ticket: string;
  /** Tickets that it had before it was moved to its right season; they find it still. */
  formerTickets: string[];
  species: SpeciesCard;
  sex: Sex;
  age: Age;
  brought: Brought;
  legs: Legs;
  parts: { primal: string; count: number }[];
  origin: 'hunter' | 'farm';
  hunter: HunterCard;
  licence: string;
  tag: string;
  killDate: string | null;
  killArea: string;
  /** Who brought it, where that was somebody else. */
  deliverer: { name: string; address: string };
  /** What of its record an officer would find missing. */
  lacks: RecordField[];
  receivedOn: string;
  promisedOn: string | null;
  condition: string;
  damage: string;
  detail: 'detailed' | 'quick';
  stage: AnimalStage;
  days: number;
  hangState: HangState;
  /** `positive`: the result came back so; the hold lasts unless the result is corrected. */
  hold: { id: number; reason: string; sample: string; openedAt: string; positive: boolean } | null;
  /** Cooler and place, or null while nobody said or once it is cut. */
  where: string | null;
  instructions: Instructions;
  weighings: WeighingRow[];
  /** Parts stated to be none; one that was weighed all the same is not among them. */
  none: PartNone[];
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
  expectedFrom: { ownAnimals: number } & SourceNote;
  primals: PrimalWeighed[];
  /** Where the usual weights of primals come from. */
  primalsFrom: SourceNote;
  balance: {
    /** The weight that is most likely wrong; none while the weights fit, or where no single one stands out. */
    suspects: Suspect[];
    /** The weights do not fit, whether or not one of them stands out. */
    doubtful: boolean;
    /** By how much the parts outweigh the animal; 0 when they do not. */
    overGrams: number;
  };
  trimGrams: number;
  trimLeftGrams: number;
  ownFat: { lotId: number; grams: number; leftGrams: number } | null;
  takeHomeGrams: number;
  batches: { id: number; name: string; product: string; state: 'open' | 'done' }[];
  packages: PackagesRow[];
  release: { to: string; on: string; by: string } | null;
  disposal: { what: string; how: string; reason: string; on: string; by: string } | null;
  /** How it stands with its bill. */
  bill: BillState;
  /** What laboratories reported, newest first; of each hold the newest counts. */
  results: {
    holdId: number;
    result: TestResult;
    sample: string;
    lab: string;
    on: string;
    note: string;
    /** Why it corrects the one before. */
    reason: string;
    at: string;
    by: string;
    counts: boolean;
  }[];
  /**
   * Animals on hold whose meat was ground into one batch with this one's: until their results are in, it is not set
   * ready and not handed over.
   */
  waitsFor: { batchId: number; batch: string; ticket: string; positive: boolean }[];
  /** Of an animal on hold: what went through the grinder after its batches, until it was cleaned. */
  heldGrinds: HeldGrind[];
  /** Whose meat went into one batch with this animal's. */
  pooledWith: { batch: string; ticket: string; hunter: string; phone: string }[];
}
