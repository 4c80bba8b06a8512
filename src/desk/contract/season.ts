/** Season reports of the window: sums over the shop's weighings. Every answer states its number of animals. */
import type { DistributionSummary } from '../../core/stats/distribution-summary.ts';
import type { AnimalStage, Age, Brought, CutPart, Range, Sex, SourceNote } from './words.ts';

/** The filter of a season view; an absent field does not filter. */
export interface SeasonFilter {
  /** Season year; the current one by default. */
  season?: number;
  species?: string;
  /** First and last day of intake. */
  from?: string;
  to?: string;
  brought?: Brought;
  sex?: Sex;
  age?: Age;
  /** Whether meat was damaged: stated at intake, or weighed at the Table. */
  damaged?: boolean;
  /** Every part weighed, or only hook and packages. */
  detail?: 'detailed' | 'quick';
  /** Initials of whoever weighed most of its parts and packages. */
  cutter?: string;
}

/** The criteria that split animals into groups. */
export type SplitBy = 'brought' | 'sex' | 'age' | 'damaged' | 'detail' | 'cutter';

/** The available values of the filters. */
export interface SeasonChoices {
  seasons: number[];
  species: { code: string; name: string; animals: number }[];
  cutters: string[];
  /** First and last intake of the season; null without any. */
  days: { from: string; to: string } | null;
}

export type { DistributionSummary };

/** Take-home as a share of hanging weight, of finished animals received as whole carcasses. */
export interface YieldsReport {
  season: number;
  /** Animals received under this filter, finished or not. */
  animals: number;
  /** Their own meat and saved fat. */
  takeHomeGrams: number;
  /** Finished, but without a hanging weight or a take-home. */
  withoutShare: number;
  species: SpeciesYield[];
}

export interface SpeciesYield {
  code: string;
  name: string;
  spread: DistributionSummary | null;
  /** One per animal, or an even sample that includes the lowest and the highest. */
  points: { ticket: string; share: number }[];
  /** The range of the published means; null for an assumption, which has no band. */
  published: ({ low: number; high: number } & SourceNote) | null;
  /** The same species and filter in every season, oldest first. */
  seasons: { season: number; n: number; q1: number; median: number; q3: number }[];
  splits: Record<SplitBy, { value: string; spread: DistributionSummary }[]>;
}

/** Where the hanging weight went, of animals with every part weighed. */
export interface PoundsReport {
  season: number;
  /** Number of these animals, and of finished ones without every part. */
  n: number;
  others: number;
  baseGrams: number;
  parts: { part: CutPart; grams: number }[];
  /** Of the remainder, the usual loss by drying and dripping, as learned. */
  shrinkGrams: number;
  /** Animals without a weight or statement of damage: it is included in shrink, or in the unexplained. */
  damageUnknown: number;
  /** The unexplained remainder. */
  unexplainedGrams: number;
  /** Weight of parts beyond the hanging weight. base = parts + shrink + unexplained − over. */
  overGrams: number;
  /** What the grinder kept of these and the other animals' meat under the filter. */
  grinder: {
    batches: number;
    inGrams: number;
    fatGrams: number;
    /** What recipes of the smokehouse added: water, salt, spices. */
    addedGrams: number;
    outGrams: number;
    lossGrams: number;
    /** Water that smoked and dried products lost after they were ground. */
    driedGrams: number;
  };
  /**
   * What the smokehouse made of all animals under the filter, by product, their part of it: the largest first. Meat and fat, and what
   * recipes added, are what was packed, what was lost in heat, and what was left in mixer and stuffer.
   */
  made: {
    product: string;
    batches: number;
    blockGrams: number;
    addedGrams: number;
    packedGrams: number;
    heatGrams: number;
    leftGrams: number;
  }[];
  /** What went into packages at the Table and from the grinder. */
  packedGrams: number;
  /** Revenue per kilogram of take-home in the season, before tax; null without bills. */
  minorPerKg: number | null;
  /** Loss by kind, largest first; money at `minorPerKg`. */
  losses: { what: LossKind; grams: number; share: number; minor: number | null }[];
  /** Each species' share of the same parts, for the bars side by side; they add to one. */
  species: {
    code: string;
    name: string;
    n: number;
    baseGrams: number;
    shares: Record<CutPart | 'shrink' | 'unexplained', number>;
  }[];
}

export type LossKind = 'bone' | 'sinew' | 'damage' | 'shrink' | 'unexplained' | 'grinder' | 'smokehouse';

/** The measures of a comparison. */
export type CompareBy = 'takeHome' | 'bone' | 'damage' | 'hanging' | 'days' | 'income';

export interface ComparedGroup {
  n: number;
  mean: number | null;
  sd: number | null;
}

export interface ComparisonReport {
  by: CompareBy;
  a: ComparedGroup;
  b: ComparedGroup;
  /** a minus b with its confidence interval; null with fewer than two animals in a group. */
  difference: (Range & { level: number }) | null;
  /** Animals in both groups: the interval assumes disjoint groups. */
  inBoth: number;
  /** Below this number of animals per group the result is unreliable, and the window says so. */
  fewest: number;
}

/** Animals behind a mark. */
export interface DrilldownReport {
  total: number;
  /** At most some hundreds, in the requested order. */
  animals: {
    ticket: string;
    species: string;
    hunter: string;
    brought: Brought;
    sex: Sex;
    age: Age;
    stage: AnimalStage;
    cutter: string | null;
    receivedOn: string;
    readyOn: string | null;
    baseGrams: number | null;
    takeHomeGrams: number | null;
    share: number | null;
    /** The value of the requested order, if it is none of the above. */
    value: number | null;
  }[];
}

/** Fat through the grinder: of the batches that include a filtered animal. */
export interface FatReport {
  season: number;
  /** In the order of their start: the newest, at most some hundreds; `counts` cover all. */
  batches: FatBatch[];
  counts: FatCounts;
  /** Control limits of the tests' deviation from their targets; null with too few tests. */
  control: {
    centre: number;
    lower: number;
    upper: number;
    /** Batches beyond them. */
    outside: { id: number; name: string }[];
  } | null;
  /** By source, largest first; `own` is the animals' own saved fat. */
  sources: { source: string; name: string; grams: number; batches: number; costMinor: number | null }[];
  /**
   * Fat saved at the Table and the number of animals, the part of it that was ground, and bought fat in the
   * batches.
   */
  saved: { savedGrams: number; ownUsedGrams: number; boughtGrams: number; animals: number };
  species: SpeciesFat[];
}

export interface FatCounts {
  batches: number;
  /** Batches with a target and weights, and those within a point of fat of it. */
  withTarget: number;
  onTarget: number;
  /** Batches with a test; with a target too; and the mean difference of test and weighed-in fat. */
  tested: number;
  testedWithTarget: number;
  gap: { n: number; mean: number } | null;
}

export interface SpeciesFat {
  code: string;
  name: string;
  /** Animals whose meat or fat was ground in these batches. */
  animals: number;
  batches: number;
  boughtGrams: number;
  ownGrams: number;
  /** Means over the species' batches that have it, weighted by the species' grams. */
  target: number | null;
  weighedIn: number | null;
  tested: number | null;
  /** Deviation from the target, as fractions of fat, each over the batches that have both. */
  misses: { weighedIn: FatMiss | null; tested: FatMiss | null };
}

export interface FatMiss {
  batches: number;
  mean: number;
}

export interface FatBatch {
  id: number;
  name: string;
  on: string;
  product: string;
  target: number | null;
  planned: number | null;
  weighedIn: number | null;
  tested: number | null;
  species: string[];
}

/** The shop's predictions compared with the observed values. */
export interface CheckReport {
  season: number;
  /** In the order of arrival: the newest, at most some hundreds. */
  quotes: CheckedQuote[];
  /** Most quotes first. */
  species: ({ code: string; name: string } & QuoteCoverage)[];
  all: QuoteCoverage & {
    /** Of the misses, those with a quoted weight far from the hanging weight. */
    wrongWeight: number;
  };
  paths: PredictionPath[];
}

/** Coverage of the quotes' ranges. */
export interface QuoteCoverage {
  n: number;
  held: number;
  /** The number of correct quotes lies within, 19 times in 20, if the ranges are valid. */
  honest: { low: number; high: number };
  /** Mean relative deviation of the observed value from the quoted mean; null without quotes. */
  bias: number | null;
}

/** The prediction for a skinned animal of a species through the season. */
export interface PredictionPath {
  code: string;
  name: string;
  /** Animals of earlier seasons in the initial prediction. */
  earlier: number;
  /** The first is from before the season's first animal; `n` is the number of this season's animals in it. */
  steps: ({ on: string; n: number } & Range)[];
  /** The season's own whole or skinned animals, under the filter: evenly sampled if there are many. */
  points: { ticket: string; on: string; nth: number; share: number }[];
}

export interface CheckedQuote {
  ticket: string;
  quote: string;
  code: string;
  speciesName: string;
  /** Take-home as quoted, and as observed, with bought fat. */
  quotedGrams: Range;
  takeHomeGrams: number;
  /** The weight of the quote, and the hanging weight. */
  quotedWeightGrams: number;
  hangingGrams: number;
}

/** The season's flow through the shop. */
export interface FlowReport {
  season: number;
  /** Every day from the first intake to the last event; of the current season to today. */
  days: { on: string; taken: number; hanging: number; ready: number }[];
  /** Places in all coolers in use; null without a cooler. */
  places: number | null;
  /** Forecast of animals hanging, 8 in 10: for all animals of the current season, otherwise empty. */
  forecast: ({ on: string } & Range)[];
  /** The basis of the forecast; null without one. `days` are the open days behind the pace. */
  pace: { takenPerDay: number; cutPerDay: number; days: number; earlierSeasons: number } | null;
  /** Days from intake to ready: number of animals by days, and by species. */
  waits: { days: number; animals: number }[];
  waitOf: { code: string; name: string; spread: DistributionSummary }[];
  /**
   * The backlog without positive animals: uncut animals, the weight of the weighed ones, and weighed trim that is
   * not ground; with the hours of each by the shop's minutes. Animals without a weight count with the mean of their
   * species.
   */
  backlog: {
    animals: number;
    grams: number;
    unweighed: number;
    hours: number;
    trimGrams: number;
    grindHours: number;
    /** False while the minutes are the supplied example. */
    ownMinutes: boolean;
  };
}
