/** A hunter's own check-in: what is asked, and what waits for the counter. */
import type { Sex } from '../../trade/animal.ts';
import type { HunterLanguage } from '../../words/hunter-language.ts';
import type { Instructions } from './instructions.ts';
import type { HunterCard } from './shop.ts';

/** What a hunter chooses from, with names in the hunter's language. */
export interface DraftSheet {
  shopName: string;
  today: string;
  unit: 'lb' | 'kg';
  /** The shop's terms at drop-off; empty: it has none, and asks for no signature. */
  terms: string;
  species: { code: string; title: string; male: string; female: string; body: string; primals: string[] }[];
  /** The shop's usual way. */
  usual: Instructions;
  /** Cutting templates; `carcass` as in `TemplateCard`. */
  ways: { title: string; carcass: string | null; instructions: Instructions }[];
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
}
