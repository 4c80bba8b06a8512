/** The season as a window sees it: what the shop's weighings add up to. Every answer says how many animals it rests on. */
import type { DistributionSummary } from '../../core/stats/distribution-summary.ts';
import type { AnimalStage, Age, Brought, CutPart, Range, Sex, SourceNote } from './words.ts';

/** Which animals a view is about; what is left out does not narrow it. */
export interface SeasonFilter {
  /** Season year; that of today when left out. */
  season?: number;
  species?: string;
  /** First and last day on which they came in. */
  from?: string;
  to?: string;
  brought?: Brought;
  sex?: Sex;
  age?: Age;
  /** Whether meat was damaged: said at intake, or weighed at the Table. */
  damaged?: boolean;
  /** Whole weighed with every part, or only on the hook and packed. */
  detail?: 'detailed' | 'quick';
  /** Initials of who weighed most of its parts and packages. */
  cutter?: string;
}

/** What animals can be parted by. */
export type SplitBy = 'brought' | 'sex' | 'age' | 'damaged' | 'detail' | 'cutter';

/** What is in the book to choose from, so that nobody filters for what is not there. */
export interface SeasonChoices {
  seasons: number[];
  species: { code: string; name: string; animals: number }[];
  cutters: string[];
  /** First and last day on which an animal of the season came in; null without any. */
  days: { from: string; to: string } | null;
}

export type { DistributionSummary };

/** Take-home as a share of hanging weight, of finished animals that came as whole carcasses. */
export interface YieldsReport {
  season: number;
  /** Animals that came in under this filter, finished or not. */
  animals: number;
  /** Own meat and saved fat that they gave. */
  takeHomeGrams: number;
  /** Finished, but without a hanging weight or a take-home to make a share of. */
  untold: number;
  species: SpeciesYield[];
}

export interface SpeciesYield {
  code: string;
  name: string;
  spread: DistributionSummary | null;
  /** One for each animal, or so many of them evenly through the order, with the least and the greatest. */
  points: { ticket: string; share: number }[];
  /** The range of the published means; null where the figure is an assumption, which no band may stand for. */
  published: ({ low: number; high: number } & SourceNote) | null;
  /** The same species and filter in every season, oldest first. */
  seasons: { season: number; n: number; q1: number; median: number; q3: number }[];
  splits: Record<SplitBy, { value: string; spread: DistributionSummary }[]>;
}

/** Where the hanging weight of animals went whose every part was weighed. */
export interface PoundsReport {
  season: number;
  /** Animals that it is added up from, and finished ones that were not weighed in every part. */
  n: number;
  others: number;
  baseGrams: number;
  parts: { part: CutPart; grams: number }[];
  /** Of the rest, as much as such animals lose in drying and dripping, by what the shop has learned. */
  shrinkGrams: number;
  /** Animals of which damage was neither weighed nor stated to be none: it lies in shrink, or in what nothing explains. */
  damageUnknown: number;
  /** What nothing explains. */
  unexplainedGrams: number;
  /** What was weighed beyond the hanging weight. base = parts + shrink + unexplained − over. */
  overGrams: number;
  /** What the grinder kept of these and the other animals' meat under the filter. */
  grinder: { batches: number; inGrams: number; fatGrams: number; outGrams: number; lossGrams: number };
  /** What went into packages at the Table and from the grinder. */
  packedGrams: number;
  /** What the shop's bills took per kilogram of take-home in the season, before tax; null without bills. */
  minorPerKg: number | null;
  /** Loss by kind, greatest first; money at `minorPerKg`. */
  losses: { what: LossKind; grams: number; share: number; minor: number | null }[];
  /** Each species' share of the same parts, for the bars side by side. */
  species: {
    code: string;
    name: string;
    n: number;
    baseGrams: number;
    shares: Record<CutPart | 'shrink' | 'unexplained', number>;
  }[];
}

export type LossKind = 'bone' | 'sinew' | 'damage' | 'shrink' | 'unexplained' | 'grinder';

/** What two groups can be compared by. */
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
  /** a less b with its range; null with fewer than two animals on a side. */
  difference: (Range & { level: number }) | null;
  /** Animals that are in both groups: the range takes them as parted. */
  inBoth: number;
  /** Fewer than this many animals on a side say little, and the window says so. */
  fewest: number;
}

/** Animals behind a mark. */
export interface DrilldownReport {
  total: number;
  /** At most some hundreds, in the order asked for. */
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
    /** What was asked to be ordered by, where it is none of the above. */
    value: number | null;
  }[];
}

/** Fat through the grinder: of the batches that hold an animal of the filter. */
export interface FatReport {
  season: number;
  /** In the order in which they were begun: the newest of them, at most some hundreds; `counts` are of all. */
  batches: FatBatch[];
  counts: FatCounts;
  /** Limits of the tests' distance from their targets; null with too few tests to tell chance. */
  control: {
    centre: number;
    lower: number;
    upper: number;
    /** Batches that lie beyond them. */
    outside: { id: number; name: string }[];
  } | null;
  /** By what was put in, greatest first; `own` is the animals' own saved fat. */
  sources: { source: string; name: string; grams: number; batches: number; costMinor: number | null }[];
  /** Fat that the filter's animals gave at the Table and how many gave it, of it ground; and bought fat that went into the batches. */
  saved: { savedGrams: number; ownUsedGrams: number; boughtGrams: number; animals: number };
  species: SpeciesFat[];
}

export interface FatCounts {
  batches: number;
  /** With a target and something weighed in, and of them within a point of fat of it. */
  aimed: number;
  onTarget: number;
  /** Batches with a test; with a target too; and what the tests found beyond what was weighed in, on average. */
  tested: number;
  testedAimed: number;
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
  /** Means over the species' batches that have it, weighted by what the species put in. */
  target: number | null;
  weighedIn: number | null;
  tested: number | null;
  /** How far off target, as fractions of fat, each over the batches that have both. */
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

/** The shop's own predictions against what came. */
export interface CheckReport {
  season: number;
  /** In the order in which their animals came: the newest, at most some hundreds. */
  quotes: CheckedQuote[];
  /** Most quotes first. */
  species: ({ code: string; name: string } & QuoteCoverage)[];
  all: QuoteCoverage & {
    /** Of the misses, those for which the weight told was far off what hung. */
    toldWrong: number;
  };
  paths: PredictionPath[];
}

/** How many quotes held what came. */
export interface QuoteCoverage {
  n: number;
  held: number;
  /** Within which the number held falls 19 times in 20, where the quotes are honest. */
  honest: { low: number; high: number };
  /** Mean of how much more came than was most likely, as a fraction of that; null without quotes. */
  bias: number | null;
}

/** What was expected of a skinned animal of a species, as the season's animals were finished. */
export interface PredictionPath {
  code: string;
  name: string;
  /** Animals of earlier seasons that it began with. */
  earlier: number;
  /** The first is from before the season's first animal; `n` is how many of the season are in it. */
  steps: ({ on: string; n: number } & Range)[];
  /** The season's own that came whole or skinned, under the filter: evenly sampled where there are many. */
  points: { ticket: string; on: string; nth: number; share: number }[];
}

export interface CheckedQuote {
  ticket: string;
  quote: string;
  code: string;
  speciesName: string;
  /** Take-home as quoted, and as it was, with bought fat. */
  quotedGrams: Range;
  takeHomeGrams: number;
  /** The weight that the quote was made for, and what it came to on the hook. */
  toldGrams: number;
  hungGrams: number;
}

/** How the season flows through the shop. */
export interface FlowReport {
  season: number;
  /** Every day from the first intake to the last time that any came, left the hook or was ready; of the running season to today. */
  days: { on: string; taken: number; hanging: number; ready: number }[];
  /** Places in all coolers in use; null where no cooler is set up. */
  places: number | null;
  /** What will hang on the days to come, 8 in 10: of the running season's animals all together, else empty. */
  forecast: ({ on: string } & Range)[];
  /** What the forecast rests on, for its sentence; null without one. `days` are the open days that the pace was measured on. */
  pace: { takenPerDay: number; cutPerDay: number; days: number; earlierSeasons: number } | null;
  /** Days from intake to ready: how many animals took so long, and by species. */
  waits: { days: number; animals: number }[];
  waitOf: { code: string; name: string; spread: DistributionSummary }[];
  /**
   * Work that waits, what tested positive left out: animals that nothing was cut of, the weight of those weighed, and
   * trim that was weighed and is not ground; with the hours that each takes by the shop's own minutes. Animals without
   * a weight count as the usual one of their kind.
   */
  backlog: {
    animals: number;
    grams: number;
    unweighed: number;
    hours: number;
    trimGrams: number;
    grindHours: number;
    /** False while the minutes are the example that came with the program. */
    ownMinutes: boolean;
  };
}
