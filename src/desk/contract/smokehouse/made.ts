/** Made batches: a recipe on the meat of a grind. Masses in grams, shares as fractions, moments UTC. */
import type { Decision, GramsRange, Proof } from './proof.ts';
import type { AdditionRole, CureMethod, MeatKind, Ppm, RecipeBody, SmokeFinding } from './recipe.ts';
import type { FromOthers } from '../lessons.ts';
import type { MassUnit, SourceNote, WeighSource } from '../words.ts';

/** How far it is: opened, amounts reckoned, stuffed, out of the smokehouse, packed. */
export type MadeState = 'open' | 'started' | 'stuffed' | 'cooked' | 'packed';

export interface MadeLine {
  id: number;
  name: string;
  recipeId: number;
  recipe: string;
  product: string;
  batchId: number;
  batch: string;
  tickets: string[];
  state: MadeState;
  finish: RecipeBody['finish'];
  /** The meat block; null before the start. */
  blockGrams: number | null;
  /** Weighed of ingredients. */
  addedGrams: number;
  stuffedGrams: number | null;
  cookedGrams: number | null;
  packedGrams: number | null;
  packages: number;
  proof: Proof;
  at: string;
  by: string;
}

/**
 * `made.list {}`. Meat that can be made into something: `grinds` are open grinds with meat in them; the animals with trim are those of
 * `grinder.get`.
 */
export interface MadeView {
  open: MadeLine[];
  recent: MadeLine[];
  grinds: { batchId: number; batch: string; product: string; tickets: string[]; leftGrams: number }[];
}

/** One ingredient on the batch sheet. */
export interface SheetAmount {
  ingredientId: number;
  name: string;
  role: AdditionRole;
  into: 'meat' | 'pickle';
  /** The recipe's amount as typed, with its unit and what it is per. */
  typed: string;
  unit: MassUnit;
  per: '100 lb' | 'kg';
  exactGrams: number;
  /** To weigh: whole steps of the scale; of cure and accelerator never rounded up. */
  grams: number;
  stepGrams: number;
  /** Too little for this scale. */
  tooFine: boolean;
  /** Weighed so far. */
  weighedGrams: number;
  /** Within a step of what is to be weighed, or more. */
  done: boolean;
  /** The lot that was last weighed of it, or ''. */
  lastLot: string;
}

/** The batch sheet: everything scaled to the meat that was really weighed. */
export interface MadeSheet {
  versionId: number;
  blockGrams: number;
  /** Empty: all that is left of the grind. */
  portionTyped: string;
  smallStepGrams: number;
  largeStepGrams: number;
  /** By kind; `recipeShare` is null for a kind that the recipe does not have. */
  meat: { kind: MeatKind; name: string; grams: number; share: number; recipeShare: number | null }[];
  amounts: SheetAmount[];
  totalGrams: number;
  method: CureMethod;
  pickUp: number | null;
  /** Of the amounts to weigh, ingoing on the green weight; null where a strength is missing. */
  ppm: Ppm | null;
  findings: SmokeFinding[];
  /** False while there is a `stop`. */
  mayStart: boolean;
  /** Shares of the raw product; `brine` is salt ÷ (salt + added water), null without either. */
  salt: number;
  water: number;
  brine: number | null;
  /** Of the block and of the raw product, 9 times in 10 between low and high; null where a fat is unknown. */
  fat: { block: FatShare; raw: FatShare } | null;
  casings: { name: string; pieces: number; gramsEach: number } | null;
  /** What it will come to packed, 8 times in 10. */
  expected: { grams: GramsRange; forecast: LossForecast };
}

export interface FatShare {
  fat: number;
  low: number;
  high: number;
}

/** Finished ÷ stuffed of the next batch of a recipe. */
export interface LossForecast {
  middle: number;
  low: number;
  high: number;
  /** Probability of the range, 0.8. */
  level: number;
  /** Batches of this recipe that it rests on. */
  batches: number;
  /** Batches that other shops told of; absent in a quote saved before they could. */
  others?: FromOthers | null;
  /** Fewer than 5: the assumption about its kind, wide on purpose. Null from then on. */
  assumed: { name: string; low: number; high: number; source: SourceNote } | null;
}

/** `made.get { id }` */
export interface MadePage extends MadeLine {
  body: RecipeBody;
  versionId: number;
  /** The recipe has a newer version than the start. */
  newerVersion: boolean;
  /** As it was started; before, as it would be started now; null while no meat was weighed in. */
  sheet: MadeSheet | null;
  startedAt: string | null;
  startedBy: string | null;
  /** A Trichinella host is in it (bear, boar …), by name, or none. */
  hosts: string[];
  /** The inside temperature that its meat has to reach without other proof. */
  cookTo: { f: number; c: number; source: SourceNote };
  weighed: {
    id: number;
    ingredientId: number;
    name: string;
    typed: string;
    grams: number;
    lot: string;
    source: WeighSource;
    at: string;
    by: string;
    voided: { reason: string; by: string } | null;
  }[];
  /** Ppm of what was really weighed; null before all cures are weighed. */
  weighedPpm: Ppm | null;
  /** Of what was really weighed. */
  weighedFindings: SmokeFinding[];
  stages: {
    id: number;
    stage: 'stuffed' | 'cooked';
    pieces: number | null;
    typed: string;
    grams: number;
    at: string;
    by: string;
    voided: { reason: string; by: string } | null;
  }[];
  packs: {
    id: number;
    product: string;
    count: number;
    typed: string;
    grams: number;
    place: string | null;
    at: string;
    by: string;
  }[];
  analyses: {
    id: number;
    what: Analysis;
    typed: string;
    value: number;
    method: string;
    at: string;
    by: string;
    voided: string | null;
  }[];
  /** From typed analyses; null without them. Moisture-protein ratio is a figure of labels and proves no safety. */
  composition: { proteinFatFree: number | null; moistureProtein: number | null; addedWater: number | null };
  /** Unusual loss: the probability of one as far out, of at least 5 others; null while too few are known. */
  unusual: number | null;
  owners: MadeOwner[];
  decisions: Decision[];
}

export type Analysis = 'moisture' | 'protein' | 'fat' | 'salt' | 'water activity' | 'ph';

/** One owner's part of a made batch; `packedGrams` of all owners together are exactly what was packed. */
export interface MadeOwner {
  animalId: number;
  ticket: string;
  hunter: string;
  /** The owner's meat in this batch, and its share of the owners' meat. */
  meatGrams: number;
  share: number;
  packedGrams: number;
  packages: number;
}

/** `made.forecast { recipeId, finishedGrams?, trimGrams? }`: "10 lb of sticks take about 16 lb of trim". */
export interface MadeForecast {
  forecast: LossForecast;
  /** Grams added per gram of the meat block, and the owner's trim in the block, of the newest version. */
  addedShare: number;
  trimShare: number;
  /** The owner's trim that the wanted finished weight takes; null if not asked. */
  trim: GramsRange | null;
  /** What the given trim comes to; null if not asked. */
  finished: GramsRange | null;
}

/** `made.losses { recipeId? }`: for the chart of losses over batches. */
export interface LossView {
  recipes: {
    recipeId: number;
    recipe: string;
    forecast: LossForecast;
    batches: {
      id: number;
      name: string;
      season: number;
      at: string;
      stuffedGrams: number;
      cookedGrams: number | null;
      packedGrams: number;
      /** 1 − packed ÷ stuffed. */
      loss: number;
      /** As `MadePage.unusual`. */
      unusual: number | null;
    }[];
  }[];
}
