/** Loads of the smokehouse and what their logs say. Temperatures in °F unless named; moments UTC. */
import type { MadeLine } from './made.ts';
import type { Decision, DecisionKind, HeatAnswer } from './proof.ts';
import type { HeatLevel } from './recipe.ts';
import type { SourceNote } from '../words.ts';

export type HumidityRecord =
  /** Humidity need not be shown: cooked immersed, in a sealed bag, in a casing, over direct heat. */
  | { kind: 'exempt'; why: 'immersed' | 'sealed-bag' | 'casing' | 'direct-heat' }
  | { kind: 'large-piece'; pieceGrams: number; ovenF: number }
  /** Minutes of steam, of a sealed oven, or at 90 % relative humidity. */
  | { kind: 'steam' | 'sealed-oven' | 'humid-part' | 'humid-all'; minutes: number };

/** What is written down of a cook. Input of `loads.record { id, record }`; the newest counts. */
export interface LoadRecord {
  level: HeatLevel;
  /** The 5-log column asks for further support, which the shop has. */
  hasSupport: boolean;
  /** Poultry or game birds in it: the table of meat does not apply. */
  poultry: boolean;
  humidity: HumidityRecord | null;
  /** Oven on and off, moments UTC; null: not written down. */
  ovenStart: string | null;
  ovenEnd: string | null;
  /** What the thermometer may be off by either way, °F. */
  accuracyF: number;
  /** Code of the way of cooling that it is held against. */
  cooling: string;
  note: string;
}

/** `code` is a code of problems, its sentence is worded with `with`; `at` is when. */
export interface HeatFinding {
  code: string;
  with: Record<string, string | number>;
  at: string | null;
}

export interface HeatJudgement {
  answer: HeatAnswer;
  notMet: HeatFinding[];
  missing: HeatFinding[];
}

/** What one probe shows. Points are thinned to at most 400 for a curve; verdicts rest on all of them. */
export interface ProbeCurve {
  probe: string;
  phase: LoadPhase;
  points: { at: string; f: number }[];
  readings: number;
  highestF: number | null;
  answer: HeatAnswer;
  /** The time at temperature that was met first, else that came nearest; null of a probe that only cools. */
  dwell: { f: number; needSeconds: number; seconds: number; metAt: string | null } | null;
  /** Minutes on the way up between two temperatures, at most; null: not in the log. */
  comeUpMinutes: number | null;
  /** Minutes of each stage of cooling, at most. */
  cooling: { fromF: number; toF: number; limitMinutes: number | null; minutes: number | null }[];
  /** Readings at fault, by name; at most 200. */
  faults: { code: string; readingId: number; at: string; typed: string; drops: boolean }[];
}

export type LoadPhase = 'cook' | 'cooling' | 'both';

export interface Verdict {
  cook: HeatJudgement;
  cooling: HeatJudgement;
}

export interface LoadLine {
  id: number;
  name: string;
  oven: string;
  state: 'open' | 'closed';
  batches: {
    loadBatchId: number;
    madeId: number;
    name: string;
    product: string;
    stuffedGrams: number | null;
  }[];
  readings: number;
  /** The newest reading, °F, and when. */
  lastF: number | null;
  lastAt: string | null;
  /** The newest verdict, and whether it rests on all that is there now; null: never judged. */
  verdict: { cook: HeatAnswer; cooling: HeatAnswer; fresh: boolean } | null;
  /** The newest decision that stands, or null. */
  decided: DecisionKind | null;
  at: string;
  by: string;
}

/** `loads.list {}` */
export interface LoadsView {
  open: LoadLine[];
  recent: LoadLine[];
  /** Stuffed batches that want heat and are in no load. */
  waiting: MadeLine[];
  /** Names of smokehouses used before. */
  ovens: string[];
}

/** `loads.get { id }` */
export interface LoadPage extends LoadLine {
  record: LoadRecord;
  recordedAt: string | null;
  recordedBy: string | null;
  made: MadeLine[];
  /** Trichinella hosts in it; then the target is at least 165 °F. */
  hosts: string[];
  /** What the inside has to reach, with the thermometer's error added. */
  target: {
    /** Rows of the table that count, °F with the seconds at it. */
    rows: { f: number; seconds: number }[];
    /** The temperature at which no time is needed, or the hosts' 165 °F, each with the error added. */
    atOnceF: number;
    hostF: number | null;
    comeUp: { fromF: number; toF: number; minutes: number };
    cooling: {
      code: string;
      name: string;
      stages: { fromF: number; toF: number; minutes: number | null }[];
      confirmed: boolean;
    };
    source: SourceNote;
  };
  /** As the logs stand now; null without a log. `loads.judge` stores it, and only a stored one lets a label say ready to eat. */
  now: Verdict | null;
  curves: ProbeCurve[];
  logs: {
    id: number;
    phase: LoadPhase;
    probe: string;
    degrees: 'F' | 'C';
    source: 'file' | 'typed' | 'thermometer';
    file: string;
    readings: number;
    excluded: number;
    at: string;
    by: string;
    voided: string | null;
  }[];
  verdicts: { cook: HeatAnswer; cooling: HeatAnswer; at: string; by: string }[];
  decisions: Decision[];
  /** When it is likely to reach its target, by the rate of the last hour; null where it does not rise or is there. */
  doneAt: string | null;
}

/** `loads.readings { logId, from }`: raw readings in the order of the file, 500 at a time. */
export interface ReadingsPage {
  count: number;
  from: number;
  readings: {
    id: number;
    readAt: string;
    typed: string;
    value: number | null;
    excluded: { exclusionId: number; reason: string } | null;
  }[];
}

/** `loads.previewLog { id, upload, degrees?, dates? }` */
export interface LoadLogPreview {
  name: string;
  degrees: 'F' | 'C';
  readings: number;
  from: string | null;
  to: string | null;
  lowestF: number | null;
  highestF: number | null;
  first: { at: string; typed: string; value: number | null }[];
  /** Faults by name with how many; readings at fault are stored too. */
  faults: { code: string; count: number; at: string }[];
  /** Rows that cannot be read at all: they stand against the import. At most 20. */
  problems: { row: number; code: string; with: Record<string, string | number> }[];
  problemCount: number;
  /** The same file is in this load already. */
  known: boolean;
}
