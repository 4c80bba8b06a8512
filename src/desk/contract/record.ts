/** The record book as an officer asks for it, what is missing in it, and the history of one animal. */
import type { AnimalStage, Brought, Grade, Sex } from './words.ts';

/** What may be missing from an entry, and can be put in later. */
export type RecordField =
  'address' | 'phone' | 'licence' | 'tag' | 'sex' | 'killDate' | 'killArea' | 'delivererAddress' | 'weight';
/** What every entry has by itself. */
type RecordAlways = 'hunter' | 'deliverer' | 'species' | 'receivedOn' | 'releasedOn' | 'releasedTo';

/** What one agency asks a processor to write down, as published. */
export interface RecordSet {
  code: string;
  place: string;
  asks: (RecordField | RecordAlways)[];
  /** How long an entry is kept; null: the published text does not say. */
  keepMonths: number | null;
  /** From when on that is counted. */
  keepFrom: string;
  also: string;
  grade: Grade;
  /** Whose rule it is, or our own choice. */
  source: {
    kind: 'law' | 'agency' | 'ours';
    title: string;
    address: string;
    read: string;
    confirmed: string;
  };
}

export interface RecordRow {
  id: number;
  ticket: string;
  hunter: string;
  address: string;
  phone: string;
  /** Who brought it, where that was somebody else; else empty. */
  deliverer: string;
  delivererAddress: string;
  licence: string;
  tag: string;
  species: string;
  speciesName: string;
  sex: Sex;
  brought: Brought;
  /** What came of an animal that was not whole; empty: all of it. */
  pieces: { name: string; count: number }[];
  killDate: string | null;
  killArea: string;
  receivedOn: string;
  /** The day on which the entry was written. */
  enteredOn: string;
  /** Days by which the entry was written too late; 0: in time. */
  lateDays: number;
  receivedGrams: number | null;
  hangingGrams: number | null;
  /** Packed for this animal alone; what went through a shared batch stands in the batch. */
  packedGrams: number | null;
  releasedOn: string | null;
  releasedTo: string | null;
  disposedOn: string | null;
  disposedWhat: string | null;
  disposedHow: string | null;
  stage: AnimalStage;
  /** `none`: not billed. */
  money: 'none' | 'paid' | 'open';
  dueMinor: number;
  /** Of `dueMinor`. */
  currency: string;
  /** Codes of what an officer would find missing. */
  lacks: RecordField[];
  /** It left longer ago than the shop keeps its records. */
  pastKeeping: boolean;
}

/** Whether the ticket numbers are whole, and what is older than the shop keeps. */
export interface RecordCheck {
  seasons: { season: number; first: string; last: string; entries: number; gaps: string[] }[];
  /** Animals received on a day that cannot be: before the shop's years, or still to come. */
  wrongDays: { ticket: string; receivedOn: string }[];
  pastKeeping: { years: number; before: string; entries: number };
}

export interface HistoryChange {
  field: string;
  /** The piece that an order is about. */
  of?: string;
  before: string | number | null;
  after: string | number | null;
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
  | 'affected-note'
  | 'affected-note-voided'
  | 'released'
  | 'disposed';

/** One thing that happened to an animal or its record. */
export interface HistoryEntry {
  at: string;
  by: string;
  what: HistoryKind;
  facts: Record<string, string | number | null>;
  changes: HistoryChange[];
  reason: string;
}
