/** A hunter's own check-in: what is asked, and what waits for the counter. */
import type { Sex } from '../../../trade/animal.ts';
import type { HunterLanguage } from '../../../words/hunter-language.ts';
import type { Instructions } from '../instructions.ts';
import type { HunterCard } from '../shop.ts';

/** A way to cut that the shop offers. */
export interface DraftWay {
  title: string;
  /** Codes of the species that can be cut so. */
  fits: string[];
  instructions: Instructions;
  /** Its ground products in the order of the instructions: what is left of the trim, then those made first. */
  made: string[];
  /** Codes of the price lines that charge what is made. */
  charges: string[];
}

/** A line of the shop's price list. */
export interface DraftPrice {
  code: string;
  title: string;
  basis: string;
  /** In minor units; null where `rate` says it. */
  amountMinor: number | null;
  /** A fraction of the subtotal, or of the total for a deposit. */
  rate: number | null;
  unit: 'lb' | 'kg' | null;
  /** The species that it holds for; null: all. */
  species: string[] | null;
  brought: string[] | null;
  fat: string | null;
  /** Of a price by weight: charged for at least so many units; null: as it weighs. */
  least: number | null;
}

/** What a hunter chooses from, with names in the hunter's language. */
export interface DraftSheet {
  shopName: string;
  today: string;
  unit: 'lb' | 'kg';
  /** The shop's terms at drop-off; empty: it has none, and asks for no signature. */
  terms: string;
  /** The language that they are written in. */
  termsLanguage: HunterLanguage;
  species: {
    code: string;
    title: string;
    male: string;
    female: string;
    body: string;
    primals: { code: string; title: string }[];
  }[];
  /** The shop's usual way. */
  usual: DraftWay;
  /** Cutting templates. */
  ways: DraftWay[];
  fats: { code: string; title: string }[];
  /** The shop's own price list; null while it has only the example's prices. */
  prices: { currency: string; lines: DraftPrice[] } | null;
}

/** A draft that waits for the counter. */
export interface DraftRow {
  id: number;
  at: string;
  language: HunterLanguage | '';
  name: string;
  phone: string;
  licence: string;
  tag: string;
  species: string;
  sex: Sex;
  killDate: string | null;
  killArea: string;
  /** Null: to be asked at the counter. */
  instructions: Instructions | null;
  /** The hunter of that name and phone number who came before; null: nobody. */
  known: HunterCard | null;
  /** Whether the hunter signed the shop's terms. */
  signed: boolean;
  /** The code of the slip that it was typed for. */
  slip: string | null;
  /** Typed on the hunter's own phone. */
  byPhone: boolean;
}

/** What a slip's code finds; neither: it is blank. */
export interface SlipView {
  code: string;
  draft: DraftRow | null;
  /** Of the animal that came with it. */
  ticket: string | null;
}

/** The terms that a hunter signed at the check-in. */
export interface SignedTerms {
  name: string;
  terms: string;
  /** The language of the terms; '' where it was not noted. */
  language: HunterLanguage | '';
  /** The day from which these were the shop's terms; null where it was not noted. */
  since: string | null;
  /** Path data of SVG in a box of 1000 × 300. */
  signature: string;
  /** The day on which they were signed. */
  on: string;
}
