/** Recipes of the smokehouse and what goes into them. Masses in grams, shares, fat and strengths as fractions. */

import type { CureClass } from '../../../core/curing/limits.ts';
import type { MassUnit, SourceNote } from '../words.ts';

export type { CureClass } from '../../../core/curing/limits.ts';

/** The nine major food allergens of US law. */
export type Allergen =
  | 'milk'
  | 'egg'
  | 'fish'
  | 'shellfish'
  | 'tree-nuts'
  | 'peanut'
  | 'wheat'
  | 'soy'
  | 'sesame';

/** `kind` names the nut, the fish or the crustacean, or is empty. */
export interface AllergenOf {
  allergen: Allergen;
  kind: string;
}

/** What an ingredient's packet says of allergens; `by-parts`: they follow from its sub-ingredients. */
export type StatedAllergens = AllergenOf[] | 'by-parts' | 'unknown';

export type IngredientKind = 'plain' | 'blend' | 'cure' | 'accelerator';

/** Fractions of the packet's weight, 6.25 % is 0.0625; null: not read off the packet, never assumed. */
export interface CureStrength {
  nitrite: number | null;
  nitrate: number | null;
  accelerator: number | null;
  /** Null: all that is no agent counts as salt. */
  salt: number | null;
  nitriteAs: 'sodium' | 'potassium';
  /** The strength as it was typed. */
  typed: string;
  /** Uses that the packet names; null: none are named. */
  uses: CureClass[] | null;
}

/** Input of `recipes.saveIngredient` beside `id` and `by`. */
export interface IngredientInput {
  name: string;
  kind: IngredientKind;
  /** Ids in the order of the packet; [] for a simple ingredient; null: the packet was not read. */
  parts: number[] | null;
  allergens: StatedAllergens;
  /** Of a cure or an accelerator, else null. */
  cure: CureStrength | null;
  note: string;
}

export interface IngredientCard extends IngredientInput {
  id: number;
  /** False: put away, not offered any more. */
  offered: boolean;
  at: string;
  by: string;
}

export type MeatKind = 'game' | 'pork' | 'beef' | 'own-fat' | 'other';
export type AdditionRole = 'cure' | 'accelerator' | 'salt' | 'seasoning' | 'binder' | 'water' | 'other';
/** How the cure gets into the meat; `none`: without a cure. */
export type CureMethod = 'none' | 'mixed-in' | 'pumped' | 'immersed' | 'rubbed';
export type HeatLevel = 'log65' | 'log7' | 'log5';

export interface RecipeMeat {
  kind: MeatKind;
  name: string;
  /** Share of the meat block, 0 to 1; together 1. */
  share: number;
  /** As bought; null: as the shop's own fat tests teach. */
  fat: number | null;
}

export interface RecipeAddition {
  ingredientId: number;
  role: AdditionRole;
  /** The amount as typed, `4 oz` or `1/4`; a bare number is in `unit`. */
  typed: string;
  unit: MassUnit;
  /** Per so much of the meat block, pickles too. */
  per: '100 lb' | 'kg';
  /** Mixed into the meat, or part of the pickle that is pumped in or that the meat lies in. */
  into: 'meat' | 'pickle';
}

export interface RecipeCasing {
  name: string;
  diameterMm: number;
  /** Filled length of one piece, mm, or null. */
  filledMm: number | null;
  /** What one piece holds, as typed in the shop's unit or with its own; '' where the size decides. */
  holdsTyped: string;
}

/** One step of a cook, as the smokehouse is set. Null: not set. */
export interface HeatStep {
  what: string;
  ovenF: number | null;
  /** Relative humidity, fraction. */
  humidity: number | null;
  minutes: number | null;
  /** Until the inside reaches this, °F. */
  untilF: number | null;
}

export interface HeatProgramme {
  level: HeatLevel;
  /** Code of a way of cooling, or null for none. */
  cooling: string | null;
  steps: HeatStep[];
}

/** A recipe without its name: input of `recipes.save`, and as it is stored. */
export interface RecipeBody {
  meat: RecipeMeat[];
  additions: RecipeAddition[];
  /** `ground`: chopped; `whole`: whole pieces and strips. */
  form: 'ground' | 'whole';
  bacon: boolean;
  method: CureMethod;
  /** The class that the recipe is meant for, compared with what form and method make of it; null without a cure. */
  class: CureClass | null;
  /** Of a pumped or immersed product: what the meat takes up, fraction of its green weight; null where it is measured. */
  pickUp: number | null;
  /** Of an immersed one: which of the two accepted methods reckons its ppm. */
  immersedBy: 'pick-up' | 'equilibrium' | null;
  skinOn: boolean;
  /** What it is meant to become. */
  finish: 'raw' | 'cooked' | 'dried';
  /** Meant to be eaten without more cooking. */
  readyToEat: boolean;
  keep: 'refrigerated' | 'frozen' | 'shelf-stable';
  /** Cooked or smoked within days; a cure with nitrate does not fit then. */
  cookedSoon: boolean;
  /** Smoked or dried at low heat, where the cure is part of what keeps it. */
  lowHeat: boolean;
  /** Kind of loss: a code of `RecipesView.lossKinds`. */
  lossKind: string;
  /** The standard of identity that its composition is compared with, or null. */
  standard: 'fresh-sausage' | 'cooked-sausage' | 'cooked-ham' | 'cooked-shoulder' | null;
  heat: HeatProgramme | null;
  casing: RecipeCasing | null;
  /** Usual package, or null. */
  packageGrams: number | null;
  note: string;
}

/** What a check found. The sentence of `code` with `with` stands in the words of problems. */
export interface SmokeFinding {
  code: string;
  /** `stop` forbids to start the batch, `warn` asks for a second look, `note` only tells. */
  weight: 'stop' | 'warn' | 'note';
  with: Record<string, string | number>;
  /** The limit behind it in its own words, with its source. */
  rule: { asWritten: string; source: SourceNote } | null;
}

export interface Ppm {
  nitrite: number;
  nitrate: number;
  accelerator: number;
}

export interface RecipeLine {
  id: number;
  versionId: number;
  name: string;
  product: string;
  finish: RecipeBody['finish'];
  readyToEat: boolean;
  offered: boolean;
  /** Number of `stop` findings: it cannot be started as it is. */
  stops: number;
  at: string;
  by: string;
}

/** A recipe that came with the program, to start from. */
export interface ReadyRecipe {
  code: string;
  name: string;
  product: string;
  note: string;
  /** Always common practice, no source. */
  source: SourceNote;
  /** Names of what it takes besides meat. */
  ingredients: string[];
  /** Whether the shop already has one of this name. */
  taken: boolean;
}

/** `recipes.list {}` */
export interface RecipesView {
  recipes: RecipeLine[];
  ready: ReadyRecipe[];
  ingredients: IngredientCard[];
  lossKinds: { code: string; name: string; low: number; high: number; source: SourceNote }[];
  cooling: { code: string; name: string; confirmed: boolean; source: SourceNote }[];
}

/** `recipes.check { body }`: of a recipe that is being written, on 100 lb of meat, or 100 kg. */
export interface RecipeCheck {
  blockGrams: number;
  amounts: { ingredientId: number; name: string; grams: number }[];
  totalGrams: number;
  /** Null where a strength is missing. */
  ppm: Ppm | null;
  findings: SmokeFinding[];
  mayStart: boolean;
  /** Shares of the raw product. */
  salt: number;
  water: number;
  /** Expected fat of the meat block; null where a fat is not stated. */
  fat: number | null;
  /** Allergens of the whole; `unknown` names ingredients of which something is unknown. */
  allergens: { contains: { allergen: Allergen; kinds: string[]; from: string[] }[]; unknown: string[] };
}

/** `recipes.get { id, versionId? }` */
export interface RecipePage {
  id: number;
  versionId: number;
  /** From 1. */
  number: number;
  name: string;
  product: string;
  body: RecipeBody;
  reason: string;
  at: string;
  by: string;
  offered: boolean;
  /** Newest first. */
  versions: { versionId: number; number: number; reason: string; at: string; by: string }[];
  check: RecipeCheck;
}
