/** The shop, its hunters and its books, as a window sees them. */
import type { AnimalStage, Brought, Sex } from './shapes-words.ts';

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
