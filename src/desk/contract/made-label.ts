/** What the label of a made product says. */
import type { Proof } from './proof.ts';
import type { Allergen, SmokeFinding } from './recipe.ts';

/** `made.label { id }`: what a label says; the window lays it out. */
export interface MadeLabel {
  madeId: number;
  name: string;
  batch: string;
  product: string;
  /** What it is called: raw, cooked, dried, or ready to eat where both verdicts are met. */
  state: 'raw' | 'cooked' | 'dried' | 'ready to eat';
  keep: 'frozen' | 'refrigerated' | 'shelf-stable';
  /** Not proven: the label says so and names the temperature to cook to. */
  proof: Proof;
  /** Null where it is ready to eat. */
  cookTo: { f: number; c: number } | null;
  /** In descending order by weight as they went in. */
  ingredients: LabelIngredient[];
  allergens: { contains: { allergen: Allergen; kinds: string[] }[]; unknown: string[] };
  /** Ingredients of the cure, or null without one. */
  cure: { nitrite: boolean; nitrate: boolean; accelerator: boolean } | null;
  /** Never sold: always true. */
  notForSale: true;
  species: string[];
  owners: { ticket: string; hunter: string; packages: number }[];
  packages: number;
  packedGrams: number | null;
  /** The day it was packed, else today, `YYYY-MM-DD`. */
  on: string;
  /** Findings that the label has to say or that stand against it. */
  findings: SmokeFinding[];
}

export interface LabelIngredient {
  name: string;
  /** Sub-ingredients in the order of the packet; `unknown` where it was not read. */
  parts: LabelIngredient[] | 'unknown';
}
