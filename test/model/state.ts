/** What the model knows of a book: plain data, so that a backup of it is a copy. Nothing here is taken from the desk's code. */
import { emptySmokehouse, type SmokehouseState } from './smokehouse-state.ts';

export type Stage = 'hanging' | 'cutting' | 'packing' | 'ready' | 'released' | 'disposed' | 'canceled';
export type Part = 'carcass' | 'primal' | 'whole cuts' | 'trim' | 'fat saved' | 'sinew' | 'bone' | 'damage' | 'fat added' | 'package'; // prettier-ignore

export interface Hunter {
  id: number;
  name: string;
  refusesPooling: boolean;
  removed: boolean;
}

export interface Hold {
  id: number;
  sample: string;
  withdrawn: boolean;
  /** What the laboratory reported, the newest last. */
  results: ('positive' | 'not detected' | 'none')[];
}

export interface Animal {
  id: number;
  season: number;
  ticket: string;
  formerTickets: { season: number; ticket: string }[];
  hunter: number;
  species: string;
  brought: 'whole' | 'skinned' | 'quarters' | 'primals' | 'boned';
  pieces: { primal: string; count: number }[];
  stage: Stage;
  detail: 'detailed' | 'quick';
  tag: string;
  receivedOn: string;
  enteredOn: string;
  killDate: string | null;
  promisedOn: string | null;
  releasedOn: string | null;
  disposedOn: string | null;
  /** Where it was before it was disposed of or canceled. */
  stageBefore: Stage;
  holds: Hold[];
  /** Primals that its newest orders name. */
  ordered: string[];
  cooler: number | null;
  quote: number | null;
}

export interface Weighing {
  id: number;
  animal: number | null;
  batch: number | null;
  lot: number | null;
  stage: string;
  part: Part;
  primal: string | null;
  count: number | null;
  grams: number;
  voided: boolean;
  /** In a batch: when it was first weighed. A correction keeps it. */
  at?: number;
  /** Of a package: the made batch that it is of. A correction keeps it. */
  made?: number;
}

export interface Lot {
  id: number;
  source: string;
  animal: number | null;
  /** All that came in: bought or saved. */
  came: number;
  left: number;
  /** What left with its animal last, and comes back with it. */
  gone: number;
}

export interface Batch {
  id: number;
  name: string;
  season: number;
  animals: number[];
  done: boolean;
  /** Somebody said why more came out than went in. */
  moreOut: boolean;
  /** When it went through the plate. */
  passes: number[];
}

export interface PriceLine {
  code: string;
  basis: string;
  amountMinor: number | null;
  rate: number | null;
  unit: 'lb' | 'kg' | null;
  species: string[] | null;
  brought: string[] | null;
  taxRate: number;
}

export interface Prices {
  id: number;
  validFrom: string;
  example: boolean;
  currency: string;
  lines: PriceLine[];
}

export interface Bill {
  id: number;
  number: number;
  animal: number;
  total: number;
  currency: string;
  voided: boolean;
}

export interface Payment {
  id: number;
  animal: number;
  kind: 'deposit' | 'payment' | 'refund';
  minor: number;
  currency: string;
  voided: boolean;
}

export interface None {
  id: number;
  animal: number;
  part: Part;
  voided: boolean;
}

export interface Belonging {
  id: number;
  animal: number;
  voided: boolean;
  /** It went to somebody, or was discarded. */
  gone: boolean;
  /** It went along when its animal was handed over. */
  along?: boolean;
}

/** Who shares an animal, and who of them took a part. */
export interface Shared {
  animal: number;
  hunters: number[];
  taken: number[];
}

export interface Donation {
  id: number;
  animal: number;
  whole: boolean;
  voided: boolean;
}

export interface Notice {
  id: number;
  animal: number;
  step: 'first' | 'second' | 'last';
  voided: boolean;
}

export interface Settings {
  unit: 'lb' | 'kg';
  currency: string;
  zone: string;
  seasonStartsMonth: number;
  cutWhileHeld: boolean;
  detailEvery: number;
  retentionYears: number;
}

export interface BookState {
  settings: Settings;
  hunters: Hunter[];
  animals: Animal[];
  weighings: Weighing[];
  nones: None[];
  belongings: Belonging[];
  shares: Shared[];
  donations: Donation[];
  notices: Notice[];
  /** The shop knows a program to donate to. */
  hasProgram: boolean;
  lots: Lot[];
  batches: Batch[];
  smokehouse: SmokehouseState;
  prices: Prices[];
  bills: Bill[];
  payments: Payment[];
  quotes: { id: number; name: string; taken: boolean }[];
  cleanings: { id: number; batch: number | null; voided: boolean; at: number }[];
  coolers: { id: number; name: string; away: boolean }[];
  readings: { id: number; voided: boolean }[];
  coolerLogs: { id: number; undone: boolean }[];
  notes: { animal: number; text: string }[];
  files: BroughtFile[];
  staff: string[];
  /** Of the shop's own, by name. */
  species: string[];
  products: string[];
  templates: { name: string; away: boolean }[];
  /** The newest entry of each kind of record that carries a moment, by its table. */
  lastEntries: Record<string, number>;
  trusted: { at: number; newest: number | null } | null;
}

export interface BroughtFile {
  id: number;
  kind: 'hunters' | 'animals' | 'weighings';
  content: string;
  undone: boolean;
  hunters: number[];
  animals: number[];
  weighings: number[];
}

export function emptyBook(zone: string): BookState {
  return {
    settings: {
      unit: 'lb', currency: 'USD', zone, seasonStartsMonth: 7, cutWhileHeld: false, detailEvery: 10, retentionYears: 3,
    },
    hunters: [], animals: [], weighings: [], nones: [], belongings: [], shares: [], donations: [], notices: [], hasProgram: false, lots: [], batches: [], smokehouse: emptySmokehouse(), prices: [], bills: [], payments: [], quotes: [],
    cleanings: [], coolers: [], readings: [], coolerLogs: [], notes: [], files: [], staff: [],
    species: [], products: [], templates: [], lastEntries: {}, trusted: null,
  }; // prettier-ignore
}
