/**
 * What a shop's own animals teach of the loss on the hook: a linear model with normal priors (a normal posterior in closed
 * form), fitted by iteratively reweighted least squares so that a freak pair counts for next to nothing.
 */
import type { SpeciesProfile } from '../species/species.ts';
import { lossTerms, type Hung, type LossTerm } from './shrink-prior.ts';

/** An animal that was weighed when it came in and again on the hook. */
export interface ShrinkPair extends Hung {
  readonly id: number;
  readonly hangingGrams: number;
}

export interface ShrinkModel {
  /** Pairs learned from. */
  readonly pairs: number;
  /**
   * The share of what came in that is expected to be gone at the hanging weight. `without` leaves one animal's own pair
   * out: it is not judged by what it taught itself.
   * @throws ValidationError `hanging.days`, `hanging.received`
   */
  expected(hung: Hung, profile: Profile, without?: number): { mean: number; sd: number };
}

type Profile = Pick<SpeciesProfile, 'ratios' | 'hangingGrams'>;

/** Student's t with few degrees of freedom: at 4 standard deviations a pair counts a quarter, at 10 a twentieth. */
const TAIL_DEGREES = 4;
/** What weight times squared distance comes to on average for normal errors: the mean of 5z²/(4 + z²). Computed. */
const NORMAL_MISFIT = 0.7863;
/** The published animal-to-animal spread counts for as many pairs. Our choice. */
const SPREAD_PAIRS = 10;
/** A pair further off than this is no shrink at all: a side not weighed, a weight that went up. Our choice. */
const MOST_GAINED = 0.02;
const MOST_LOST = { whole: 0.5, other: 0.3 };
const ROUNDS = 12;
/** Standard deviation of a reading, g: half a pound and a swinging hook. What was typed tells no better afterwards. */
const READING_SD = 113;
const RELATIVE_READING_SD = 0.002;

interface Row {
  id: number;
  /** By name of the shop's deviation, in prior standard deviations. */
  at: [index: number, slope: number][];
  /** −ln(hanging / received), less what was expected beforehand. */
  beyond: number;
  /** Loss expected beforehand, and the animal-to-animal variance that goes with it. */
  mean: number;
  animalVariance: number;
  readingVariance: number;
}

/** Animals differ by a share of what they lose: the spread follows what is expected, within these bounds. Our choice. */
const LEAST_FACTOR = 0.5;
const MOST_FACTOR = 5;

/**
 * Learns from pairs of weights. The shop's deviations (first day, cooler, each kind and how it came, hide) start at 0 with
 * their prior spread; pairs narrow and move them. Order does not matter.
 * @param profileOf undefined for a kind that is not known any more: its pairs are left out
 * @throws ValidationError `hanging.days`, `hanging.received`
 */
export function learnShrink(
  pairs: readonly ShrinkPair[],
  profileOf: (species: string) => Profile | undefined,
): ShrinkModel {
  const index = new Map<string, number>();
  const indexOf = (name: string): number => {
    const found = index.get(name) ?? index.size;
    index.set(name, found);
    return found;
  };
  const rows = pairs.flatMap((pair) => {
    const profile = profileOf(pair.species);
    return profile && isShrink(pair) ? [rowOf(pair, lossTerms(pair, profile), indexOf)] : [];
  });
  const fit = fitted(rows, index.size);
  const byId = new Map(rows.map((row, i) => [row.id, { row, noise: fit.noises[i] ?? Infinity }]));
  return {
    pairs: rows.length,
    expected(hung, profile, without) {
      const terms = lossTerms(hung, profile);
      const own = without === undefined ? undefined : byId.get(without);
      const { mean: state, cover } = own ? leftOut(fit, own.row, own.noise) : fit;
      const at = terms.map(({ of, shopSd }) => [index.get(of), shopSd] as const);
      const known = at.flatMap(([i, slope]): [number, number][] => (i === undefined ? [] : [[i, slope]]));
      const unknown = at.reduce((sum, [i, slope]) => sum + (i === undefined ? slope ** 2 : 0), 0);
      const before = sumOf(terms, ({ mean }) => mean);
      const mean = before + dot(known, state);
      const ofAnimal =
        fit.scale * factorOf(before, mean) ** 2 * sumOf(terms, ({ animalSd }) => animalSd ** 2);
      const variance = quadratic(known, cover) + unknown + ofAnimal;
      // Never a gain: what dries does not grow heavier.
      const kept = Math.exp(-Math.max(0, mean));
      return { mean: 1 - kept, sd: kept * Math.sqrt(variance) };
    },
  };
}

function isShrink({ brought, receivedGrams, hangingGrams }: ShrinkPair): boolean {
  const lost = 1 - hangingGrams / receivedGrams;
  return lost >= -MOST_GAINED && lost <= (brought === 'whole' ? MOST_LOST.whole : MOST_LOST.other);
}

function rowOf(pair: ShrinkPair, terms: readonly LossTerm[], indexOf: (name: string) => number): Row {
  const reading = (grams: number): number => RELATIVE_READING_SD ** 2 + (READING_SD / grams) ** 2;
  return {
    id: pair.id,
    at: terms.map(({ of, shopSd }) => [indexOf(of), shopSd]),
    beyond: Math.log(pair.receivedGrams / pair.hangingGrams) - sumOf(terms, ({ mean }) => mean),
    mean: sumOf(terms, ({ mean }) => mean),
    animalVariance: sumOf(terms, ({ animalSd }) => animalSd ** 2),
    readingVariance: reading(pair.receivedGrams) + reading(pair.hangingGrams),
  };
}

interface Fit {
  mean: Float64Array;
  cover: Float64Array[];
  /** Variance with which each row counts in the end: of its animal and readings, over its weight. */
  noises: number[];
  /** Animal-to-animal variance as a multiple of the published one. */
  scale: number;
}

/**
 * Expectation-maximisation for errors of Student's t: weights from the residuals, then the normal posterior, and the
 * animal-to-animal variance scaled towards what the residuals show, as far as `SPREAD_PAIRS` allow.
 */
function fitted(rows: readonly Row[], size: number): Fit {
  let fit: Fit = { ...prior(size), noises: [], scale: 1 };
  for (let round = 0; rows.length > 0 && round < ROUNDS; round++) {
    let misfit = 0;
    const weighted = rows.map((row) => {
      const moved = dot(row.at, fit.mean);
      const noise = noiseOf(row, fit.scale, moved);
      const distance = ((row.beyond - moved) ** 2 + (round === 0 ? 0 : quadratic(row.at, fit.cover))) / noise;
      const weight = (TAIL_DEGREES + 1) / (TAIL_DEGREES + distance);
      misfit += (weight * distance) / NORMAL_MISFIT;
      return { row, weight, moved };
    });
    const scale = (SPREAD_PAIRS + misfit * fit.scale) / (SPREAD_PAIRS + rows.length);
    const noises = weighted.map(({ row, weight, moved }) => noiseOf(row, scale, moved) / weight);
    const next = prior(size);
    rows.forEach((row, i) => takeIn(next, row, noises[i] ?? Infinity));
    fit = { ...next, noises, scale };
  }
  return fit;
}

/** The posterior as it would be without one row: its information taken off again. */
function leftOut(fit: Fit, row: Row, noise: number): Pick<Fit, 'mean' | 'cover'> {
  const copy = { mean: fit.mean.slice(), cover: fit.cover.map((line) => line.slice()) };
  takeIn(copy, row, -noise);
  return copy;
}

const factorOf = (before: number, mean: number): number =>
  Math.min(MOST_FACTOR, Math.max(LEAST_FACTOR, mean / before));

const noiseOf = (row: Row, scale: number, moved: number): number =>
  scale * factorOf(row.mean, row.mean + moved) ** 2 * row.animalVariance + row.readingVariance;

function prior(size: number): Pick<Fit, 'mean' | 'cover'> {
  const cover = Array.from({ length: size }, (_, i) =>
    Float64Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)),
  );
  return { mean: new Float64Array(size), cover };
}

/** The normal posterior after one more observation of variance `noise`; a negative one takes it back. In place. */
function takeIn({ mean, cover }: Pick<Fit, 'mean' | 'cover'>, row: Row, noise: number): void {
  const along = cover.map((line) => dot(row.at, line));
  const variance = dot(row.at, along) + noise;
  const surprise = (row.beyond - dot(row.at, mean)) / variance;
  cover.forEach((line, i) => {
    const step = along[i] ?? 0;
    mean[i] = (mean[i] ?? 0) + step * surprise;
    along.forEach((other, j) => (line[j] = (line[j] ?? 0) - (step * other) / variance));
  });
}

const dot = (at: Row['at'], values: ArrayLike<number>): number =>
  at.reduce((sum, [i, slope]) => sum + slope * (values[i] ?? 0), 0);

const quadratic = (at: Row['at'], cover: readonly Float64Array[]): number =>
  dot(
    at,
    cover.map((line) => dot(at, line)),
  );

const sumOf = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((sum, item) => sum + of(item), 0);
