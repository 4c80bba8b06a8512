/** The rail and one animal. */
import type { Belonging } from './belonging.ts';
import type { Affects, WaitsFor } from './affected.ts';
import type { RecordField } from './record.ts';
import type { BillState } from './bill.ts';
import type { HeldGrind } from './grinder.ts';
import type { Instructions, OrdersStatus } from './instructions.ts';
import type { FromOthers } from './lessons.ts';
import type { WeighingRow } from './weighing.ts';
import type { DonationRow, PickupNotice } from './donation.ts';
import type { Sharer } from './share.ts';
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

export type HangState = 'fresh' | 'ready' | 'due' | 'over';

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
  /** Hanging weight, else received weight, else null. */
  grams: number | null;
  /** That weight as it was typed, if it was one and named its unit: “108 lb 2 oz”. */
  said: string | null;
  promisedOn: string | null;
  /** Nobody asked the hunter yet how it is wanted. */
  notAsked: boolean;
  /** Name of the cooler it hangs in, or null while nobody said, and its place there. */
  cooler: string | null;
  place: string | null;
}

/** Why an animal is to be cut next. */
export type CutReason = 'over-limit' | 'promised' | 'due' | 'ready' | 'light' | 'oldest';

export interface NextCut {
  id: number;
  ticket: string;
  why: CutReason;
}

export interface RailView {
  hooks: Hook[];
  /** Animals to cut now, in order. */
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
  /** An animal on the table keeps its hook: it is on the rail too, as it is among the places taken of a cooler. */
  counts: { onRail: number; cutting: number; packing: number; ready: number; onRailGrams: number };
  limitDays: number;
  /** The ticket of the next animal, unless another window is faster. */
  nextTicket: string;
  /** Ticket numbers of trim waiting for the grinder. */
  trimWaiting: number;
}

/** A part that was stated as none. */
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
  /** Received pieces; 0 when this one was not received. */
  brought: number;
  /** Sum of its weights; null before the first. */
  grams: number | null;
  /** Share of the animal's weight (hanging, or as received); null without one. */
  share: number | null;
  /** The 8-in-10 range of such animals; null without a weight of the animal. */
  usual: { low: number; high: number } | null;
  /** Far from its usual weight, or doubtful by the balance. */
  odd: boolean;
  /** The recorded weight can only be one side of a pair. */
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
  /** The suggested correction, as text that can be typed, and its slip. */
  likely: { typed: string; kind: string } | null;
  /** Whether the same container was probably weighed twice: voiding one explains the excess. */
  twice: boolean;
  /** Whether it probably belongs to another animal: without it the others are consistent. */
  otherAnimal: boolean;
}

/** Packages of an animal: its own, or its share of a batch. */
interface PackagesRow {
  product: string;
  count: number;
  grams: number;
  batch: string | null;
  /** Freezer places: one, or several of a batch; empty if unknown. */
  places: string[];
}

/** Who last did something with an animal, by the trail. */
export interface LastWork {
  at: string;
  by: string;
  what: 'weighed' | 'voided' | 'changed';
  /** Its name; null: at the desk itself. */
  station: string | null;
}

export interface AnimalPage {
  id: number;
  ticket: string;
  /** Tickets from before it was moved to its right season; they still find it. */
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
  /** The person who brought it, if not the hunter. */
  deliverer: { name: string; address: string };
  /** Missing fields of its record. */
  lacks: RecordField[];
  receivedOn: string;
  promisedOn: string | null;
  condition: string;
  damage: string;
  detail: 'detailed' | 'quick';
  stage: AnimalStage;
  days: number;
  hangState: HangState;
  /** `positive`: the result; the hold lasts unless the result is corrected. */
  hold: { id: number; reason: string; sample: string; openedAt: string; positive: boolean } | null;
  /** Cooler and place, or null if unknown or once it is cut. */
  where: string | null;
  instructions: Instructions;
  /** Until somebody asked the hunter, `instructions` are only what the shop would do. */
  ordersStatus: OrdersStatus;
  weighings: WeighingRow[];
  /** Null only where nothing of it was ever recorded here. */
  lastWork: LastWork | null;
  /** Parts stated as none, without those weighed anyway. */
  none: PartNone[];
  weights: { receivedGrams: number | null; hangingGrams: number | null };
  /**
   * The weight ladder: everything weighed at the table compared with hanging (or received) weight. Null without a
   * base.
   */
  ladder: {
    baseGrams: number;
    base: 'hanging' | 'received';
    pieces: LadderPiece[];
    restGrams: number;
  } | null;
  /** 8-in-10 ranges of the shares of such animals. */
  expected: { part: CutPart | 'take-home' | 'shrink'; low: number; high: number }[];
  expectedFrom: { ownAnimals: number; others: FromOthers | null } & SourceNote;
  primals: PrimalWeighed[];
  /** Source of the usual weights of primals. */
  primalsFrom: SourceNote;
  balance: {
    /** The most likely wrong weights; none while the weights are consistent, or where no single one stands out. */
    suspects: Suspect[];
    /** The weights are inconsistent, whether or not one of them stands out. */
    doubtful: boolean;
    /** Excess of the parts over the animal; 0 without one. */
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
  /** Hunters who share it; empty where one has all of it. */
  sharers: (Sharer & {
    /** Packages of this hunter in each row of `packages`. */
    counts: number[];
  })[];
  /** What of it was donated. */
  donations: DonationRow[];
  /** It goes back as it came. */
  unprocessed: { reason: string; at: string; by: string } | null;
  /** Notices to its hunter, who did not come for it. */
  notices: PickupNotice[];
  /** What came with it besides its meat. */
  belongings: Belonging[];
  /** Its intake was a mistake. */
  canceled: { reason: string; at: string; by: string } | null;
  /** The state of its bill. */
  bill: BillState;
  /** Laboratory results, newest first; the newest of each hold is valid. */
  results: {
    holdId: number;
    result: TestResult;
    sample: string;
    lab: string;
    on: string;
    note: string;
    /** The reason of the correction. */
    reason: string;
    at: string;
    by: string;
    counts: boolean;
  }[];
  /**
   * Animals on hold whose meat was ground into one batch with this one's: until their results arrive, it is neither
   * set ready nor handed over.
   */
  waitsFor: WaitsFor[];
  /** Of an animal that tested positive: all that its meat reached; null where it reached nothing. */
  affects: Affects | null;
  /** Of an animal on hold: what went through the grinder after its batches, until it was cleaned. */
  heldGrinds: HeldGrind[];
  /** Animals whose meat went into one batch with this one's. */
  pooledWith: { batch: string; ticket: string; hunter: string; phone: string }[];
}
