/** What the model knows of recipes, of what is made by them, and of the smokehouse's loads. */

export interface Ingredient {
  id: number;
  name: string;
  away: boolean;
  isCure: boolean;
  /** Share of nitrite; null: not read off the packet. */
  strength: number | null;
}

/** Salt and a cure, so many ounces of it on 100 lb. */
export interface Cured {
  salt: number;
  cure: number;
  ounces: number;
}

export interface Recipe {
  id: number;
  name: string;
  product: string;
  away: boolean;
  versions: number;
  /** Null: ground game alone, packed raw. */
  cured: Cured | null;
  /** It came with the program: the model makes nothing by it. */
  ready: boolean;
}

export interface Made {
  id: number;
  name: string;
  season: number;
  recipe: number;
  batch: number;
  voided: boolean;
  start: { grams: number; portion: boolean; cured: (Cured & { strength: number | null }) | null } | null;
  weighed: { id: number; ingredient: number; grams: number; voided: boolean }[];
  stages: { id: number; stage: 'stuffed' | 'cooked'; grams: number; voided: boolean }[];
  analyses: { id: number; voided: boolean }[];
}

export interface Load {
  id: number;
  name: string;
  season: number;
  closed: boolean;
  batches: { id: number; made: number; voided: boolean }[];
  /** `good`: the whole of it meets the figures. */
  logs: { id: number; probe: string; content: string | null; good: boolean; voided: boolean }[];
  readings: { id: number; log: number; excluded: boolean }[];
  /** The newest verdict, and whether nothing of the load changed since. */
  verdict: { met: boolean; fresh: boolean } | null;
  verdicts: number;
}

export interface Decision {
  id: number;
  load: number | null;
  made: number | null;
  decided: 'hold' | 'cook again' | 'not ready to eat' | 'discard' | 'authority';
  voided: boolean;
}

export interface SmokehouseState {
  ingredients: Ingredient[];
  recipes: Recipe[];
  made: Made[];
  loads: Load[];
  decisions: Decision[];
}

export const emptySmokehouse = (): SmokehouseState => ({
  ingredients: [],
  recipes: [],
  made: [],
  loads: [],
  decisions: [],
});
