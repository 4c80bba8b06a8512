/** What is proven of a made batch or a load, what was decided of it, and what its label says. */
import type { HunterLanguage } from '../../../words/hunter-language.ts';
import type { Allergen, SmokeFinding } from './recipe.ts';

export interface GramsRange {
  low: number;
  middle: number;
  high: number;
}

/** What a log says of the figures entered. Never that a product is safe. */
export type HeatAnswer = 'meets-figures' | 'not-met' | 'not-proven';

/** What is proven of a made batch, by the newest verdict of the last load that it was in. Never that a product is safe. */
export interface Proof {
  /** `not-needed`: the recipe is raw. */
  cook: HeatAnswer | 'not-needed';
  cooling: HeatAnswer | 'not-needed';
  /** The loads that it was in, with whether their verdict still stands on all of their rows, and whether it was decided to cook again. */
  loads: { id: number; name: string; fresh: boolean; again: boolean }[];
  /** Whether a ready-to-eat label may be printed. */
  readyToEat: boolean;
  /** Codes of what stands against a ready-to-eat label; empty where it may be printed or is not wanted. */
  missing: { code: string; with: Record<string, string | number> }[];
}

export type DecisionKind = 'hold' | 'cook again' | 'not ready to eat' | 'discard' | 'authority';

/** What was decided of a load or batch that is not proven. */
export interface Decision {
  id: number;
  decided: DecisionKind;
  decidedBy: string;
  note: string;
  at: string;
  by: string;
  voided: string | null;
}

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
  /** `language`: of the hunter's labels, '' for the shop's. */
  owners: { ticket: string; hunter: string; language: HunterLanguage | ''; packages: number }[];
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
