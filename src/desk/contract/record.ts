/** The record book for an officer, its gaps, and the history of one animal. */
import type { BelongingWent } from './belonging.ts';
import type { PrimalOrder } from './instructions.ts';
import type { DecisionKind, HeatAnswer } from './smokehouse/proof.ts';
import type { AnimalStage, Brought, Grade, Sex, TestResult } from './words.ts';

/** Fields that may be missing from an entry, and can be added later. */
export type RecordField =
  | 'address'
  | 'phone'
  | 'licence'
  | 'tag'
  | 'sex'
  | 'killDate'
  | 'killArea'
  | 'delivererAddress'
  | 'weight';
/** Fields that every entry has. */
type RecordAlways = 'hunter' | 'deliverer' | 'species' | 'receivedOn' | 'releasedOn' | 'releasedTo';

/** One agency's published list of required fields. */
export interface RecordSet {
  code: string;
  place: string;
  asks: (RecordField | RecordAlways)[];
  /** Retention period of an entry; null: the published text does not state it. */
  keepMonths: number | null;
  /** The start of that period. */
  keepFrom: string;
  also: string;
  grade: Grade;
  /** The source of the rule, or our own choice. */
  source: {
    kind: 'law' | 'agency' | 'ours';
    title: string;
    address: string;
    read: string;
    confirmed: string;
  };
}

/** A packed product of the smokehouse with an animal's meat in it. */
export interface MadeProduct {
  /** Of the made batch. */
  name: string;
  product: string;
  /** The animal's part of it; of `groundGrams` and `groundPackages`. */
  grams: number;
  packages: number;
  /** Tickets of the other animals in it. */
  others: string[];
  /** Ingoing nitrite by what was weighed; null without a cure, or where it is not known. */
  nitritePpm: number | null;
  /** The worse of cook and cooling; `not-needed`: it is raw. */
  heat: HeatAnswer | 'not-needed';
  /** What was decided last of it or of its last load. */
  decided: DecisionKind | null;
}

export interface RecordRow {
  id: number;
  ticket: string;
  hunter: string;
  address: string;
  phone: string;
  /** The person who brought it, if not the hunter; else empty. */
  deliverer: string;
  delivererAddress: string;
  licence: string;
  tag: string;
  species: string;
  speciesName: string;
  sex: Sex;
  brought: Brought;
  /** The received pieces of an animal that was not whole; empty: all of it. */
  pieces: { name: string; count: number }[];
  /** Hunters who share it with their part of it, and who took a part when; empty where one has all of it. */
  sharers: { name: string; phone: string; share: number; taken: { to: string; on: string } | null }[];
  /** What of it was donated. */
  donations: { program: string; grams: number; confirmation: string; on: string }[];
  /** What came with it besides its meat, and where it went; null while it is here. */
  belongings: {
    kind: string;
    tag: string;
    evidence: boolean;
    went: BelongingWent | null;
    name: string | null;
    on: string | null;
  }[];
  killDate: string | null;
  killArea: string;
  receivedOn: string;
  /** The day of the entry. */
  enteredOn: string;
  /** Days by which the entry was late; 0: on time. */
  lateDays: number;
  receivedGrams: number | null;
  hangingGrams: number | null;
  /** Packed for this animal alone; shared batches are listed with the batch. */
  packedGrams: number | null;
  /** Its packages of shared and own batches, and their weight. */
  groundPackages: number;
  groundGrams: number;
  /** Products of the smokehouse with its meat. */
  made: MadeProduct[];
  /** Why it is on hold, or `positive`; null where it is not. */
  hold: string | null;
  /** Test results that count, newest first. */
  results: { result: TestResult; sample: string; lab: string; on: string }[];
  /** How many photographs of it stand. */
  photos: number;
  /** Tickets of animals that tested positive and whose meat reached one of its batches. */
  affectedBy: string[];
  releasedOn: string | null;
  releasedTo: string | null;
  disposedOn: string | null;
  disposedWhat: string | null;
  disposedHow: string | null;
  /** Its intake was a mistake: why, and on which day that was said. */
  canceled: { reason: string; on: string } | null;
  stage: AnimalStage;
  /** `none`: not billed. */
  money: 'none' | 'paid' | 'open';
  dueMinor: number;
  /** Of `dueMinor`. */
  currency: string;
  /** Codes of missing fields. */
  lacks: RecordField[];
  /** It left longer ago than the retention period. */
  pastKeeping: boolean;
}

/** Whether the ticket numbers are complete, and which entries are past the retention period. */
export interface RecordCheck {
  seasons: { season: number; first: string; last: string; entries: number; gaps: string[] }[];
  /** Animals with an impossible day of receipt: before the shop's years, or in the future. */
  wrongDays: { ticket: string; receivedOn: string }[];
  pastKeeping: { years: number; before: string; entries: number };
}

/** A value of a record: what was typed, a code, several names, how a piece is wanted, or which pieces came, by their names. */
export type HistoryValue =
  | string
  | number
  | boolean
  | readonly string[]
  | Pick<PrimalOrder, 'as' | 'size'>
  | { pieces: readonly { count: number; primal: string }[] }
  | null;

export interface HistoryChange {
  field: string;
  /** The primal of an order. */
  of?: string;
  before: HistoryValue;
  after: HistoryValue;
}

export type HistoryKind =
  | 'taken-in'
  | 'brought-in'
  | 'changed'
  | 'owner-changed'
  | 'quote'
  | 'instructed'
  | 'hung'
  | 'weighed'
  | 'weight-corrected'
  | 'weight-voided'
  | 'weight-moved'
  | 'weight-moved-here'
  | 'weight-moved-away'
  | 'none-stated'
  | 'none-voided'
  | 'held'
  | 'hold-ended'
  | 'test-result'
  | 'batched'
  | 'fat-moved'
  | 'billed'
  | 'bill-voided'
  | 'paid'
  | 'payment-voided'
  | 'called'
  | 'donated'
  | 'donation-voided'
  | 'as-came'
  | 'processed-after-all'
  | 'notice'
  | 'notice-voided'
  | 'shared'
  | 'part-released'
  | 'part-voided'
  | 'belonging-came'
  | 'belonging-voided'
  | 'belonging-went'
  | 'belonging-back'
  | 'photographed'
  | 'photo-voided'
  | 'photo-removed'
  | 'affected-note'
  | 'affected-note-voided'
  | 'released'
  | 'disposed';

/** One event of an animal or its record. */
export interface HistoryEntry {
  at: string;
  by: string;
  what: HistoryKind;
  facts: Record<string, string | number | null>;
  changes: HistoryChange[];
  reason: string;
}
