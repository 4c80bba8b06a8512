/** What a positive result reaches, as a window sees it. */
import type { AffectedDeed, AnimalStage } from './words.ts';

/** A positive animal whose meat reached a batch. */
export interface AffectedBy {
  ticket: string;
  /** The batch that the grinder carried it on from; null where the meat itself was weighed in. */
  from: string | null;
}

/** Why an animal is not handed over: another's meat reached one of its batches. */
export interface WaitsFor extends AffectedBy {
  batchId: number;
  batch: string;
  /** That one's test was positive; else its result is not in. */
  positive: boolean;
}

/** Batches and animals that a positive result reaches. */
export interface Affects {
  batches: {
    id: number;
    name: string;
    product: string;
    from: string | null;
    packages: number;
    grams: number;
  }[];
  animals: AffectedAnimal[];
  /** The positive animal's own ground meat was packed at the Table without a batch. */
  ownUntraced: boolean;
  /**
   * Animals that ground meat packed at the Table without a batch may concern besides: nobody recorded when it was ground, so it
   * is not traced through the grinder, and holds nothing back.
   */
  untraced: AffectedAnimal[];
}

export interface AffectedAnimal {
  id: number;
  ticket: string;
  hunter: string;
  phone: string;
  /** All of its hunters where several share it, and whether each has taken the part that is his; empty where one has all of it. */
  sharers: { name: string; phone: string; gone: boolean }[];
  stage: AnimalStage;
  /** Names of its batches that are affected; where it is not traced, also of its products. */
  batches: string[];
  /** Its packages of these. */
  packages: number;
  grams: number;
  /** Nobody noted yet that its hunter was called. */
  toCall: boolean;
  /** What was done, first first. */
  notes: { id: number; what: AffectedDeed; note: string; at: string; by: string }[];
}

/** What does not fit when an animal is set ready; grams. */
export interface ReadyDoubts {
  /** Whole cuts and trim weighed at the Table. */
  cutGrams: number;
  /** Of its trim into batches. */
  groundGrams: number;
  /** Packages weighed at the Table. */
  packedGrams: number;
  /** More was packed and ground than was cut; else 0. */
  overGrams: number;
  /** Cut, and neither packed nor ground; else 0. */
  missingGrams: number;
  /** Batches with its meat of which nothing is packed. */
  unpacked: { batch: string; product: string; grams: number }[];
  /** Products ordered that nothing was made of. */
  notMade: string[];
}
