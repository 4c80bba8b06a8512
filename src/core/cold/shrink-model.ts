/**
 * Learns the loss on the hook from a shop's own animals: a linear model with normal priors and Student's t errors, fitted by
 * iteratively reweighted least squares, so that outliers carry little weight.
 */
import type { SpeciesProfile } from '../species/species.ts';
import { lossTerms, type HangingInterval, type LossTerm } from './shrink-prior.ts';

/** An animal weighed on arrival and again on the hook. */
export interface ShrinkPair extends HangingInterval {
  readonly id: number;
  readonly hangingGrams: number;
}

export interface ShrinkModel {
  /** Number of pairs in the fit. */
  readonly pairs: number;
  /**
   * The expected share of the received weight that is lost at the hanging weight. `without` leaves one animal's own pair out,
   * so that it is not compared with itself.
   * @throws ValidationError `hanging.days`, `hanging.received`
   */
  expected(hung: HangingInterval, profile: Profile, without?: number): { mean: number; sd: number };
}

type Profile = Pick<SpeciesProfile, 'ratios' | 'hangingGrams'>;

/** Student's t with few degrees of freedom: at 4 standard deviations a pair counts a quarter, at 10 a twentieth. */
const TAIL_DEGREES = 4;
/** Expected weight × squared distance under normal errors: the mean of 5z²/(4 + z²). Computed. */
const NORMAL_MISFIT = 0.7863;
/** Prior sample size of the published animal-to-animal variance. Our choice. */
const PRIOR_PAIRS = 10;
/** A pair outside these limits is not shrink but an error, such as an unweighed side. Our choice. */
const MAX_GAIN = 0.02;
const MAX_LOSS = { whole: 0.5, other: 0.3 };
const ITERATIONS = 12;
/** Standard deviation of a reading, g: half a pound and a swinging hook, whatever the typed precision. */
const READING_SD = 113;
const RELATIVE_READING_SD = 0.002;

interface Row {
  id: number;
  /** The design row: index of each shop effect with its slope, effects in prior standard deviations. */
  loadings: [index: number, slope: number][];
  /** −ln(hanging / received), less its prior mean. */
  deviation: number;
  /** Prior mean of the loss, and the animal-to-animal variance. */
  mean: number;
  animalVariance: number;
  readingVariance: number;
}

/** The animal-to-animal SD scales with the expected loss, within these bounds. Our choice. */
const MIN_FACTOR = 0.5;
const MAX_FACTOR = 5;

/**
 * Fits the shop's effects (first day, cooler, each species and carcass condition, hide), all with prior mean 0. The
 * order of the pairs does not matter.
 * @param profileOf undefined for a species that no longer exists: its pairs are left out
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
  const fit = fitRows(rows, index.size);
  const byId = new Map(rows.map((row, i) => [row.id, { row, rowVariance: fit.rowVariances[i] ?? Infinity }]));
  return {
    pairs: rows.length,
    expected(hung, profile, without) {
      const terms = lossTerms(hung, profile);
      const own = without === undefined ? undefined : byId.get(without);
      const { mean: state, covariance } = own ? leaveOneOut(fit, own.row, own.rowVariance) : fit;
      const at = terms.map(({ effect, shopSd }) => [index.get(effect), shopSd] as const);
      const known = at.flatMap(([i, slope]): [number, number][] => (i === undefined ? [] : [[i, slope]]));
      const unknown = at.reduce((sum, [i, slope]) => sum + (i === undefined ? slope ** 2 : 0), 0);
      const priorMean = sumOf(terms, ({ mean }) => mean);
      const mean = priorMean + dot(known, state);
      const animalVariance =
        fit.scale * factorOf(priorMean, mean) ** 2 * sumOf(terms, ({ animalSd }) => animalSd ** 2);
      const variance = quadratic(known, covariance) + unknown + animalVariance;
      // A drying carcass does not gain weight.
      const remaining = Math.exp(-Math.max(0, mean));
      return { mean: 1 - remaining, sd: remaining * Math.sqrt(variance) };
    },
  };
}

function isShrink({ brought, receivedGrams, hangingGrams }: ShrinkPair): boolean {
  const lost = 1 - hangingGrams / receivedGrams;
  return lost >= -MAX_GAIN && lost <= (brought === 'whole' ? MAX_LOSS.whole : MAX_LOSS.other);
}

function rowOf(pair: ShrinkPair, terms: readonly LossTerm[], indexOf: (name: string) => number): Row {
  const reading = (grams: number): number => RELATIVE_READING_SD ** 2 + (READING_SD / grams) ** 2;
  return {
    id: pair.id,
    loadings: terms.map(({ effect, shopSd }) => [indexOf(effect), shopSd]),
    deviation: Math.log(pair.receivedGrams / pair.hangingGrams) - sumOf(terms, ({ mean }) => mean),
    mean: sumOf(terms, ({ mean }) => mean),
    animalVariance: sumOf(terms, ({ animalSd }) => animalSd ** 2),
    readingVariance: reading(pair.receivedGrams) + reading(pair.hangingGrams),
  };
}

interface Fit {
  mean: Float64Array;
  covariance: Float64Array[];
  /** Effective variance of each row: of its animal and readings, over its weight. */
  rowVariances: number[];
  /** Animal-to-animal variance relative to the published one. */
  scale: number;
}

/**
 * Expectation-maximisation for Student's t errors: weights from the residuals, then the normal posterior, then the scale of
 * the animal-to-animal variance, shrunk by `PRIOR_PAIRS`.
 */
function fitRows(rows: readonly Row[], size: number): Fit {
  let fit: Fit = { ...prior(size), rowVariances: [], scale: 1 };
  for (let round = 0; rows.length > 0 && round < ITERATIONS; round++) {
    let misfit = 0;
    const weighted = rows.map((row) => {
      const shift = dot(row.loadings, fit.mean);
      const rowVariance = rowVarianceOf(row, fit.scale, shift);
      const distance =
        ((row.deviation - shift) ** 2 + (round === 0 ? 0 : quadratic(row.loadings, fit.covariance))) /
        rowVariance;
      const weight = (TAIL_DEGREES + 1) / (TAIL_DEGREES + distance);
      misfit += (weight * distance) / NORMAL_MISFIT;
      return { row, weight, moved: shift };
    });
    const scale = (PRIOR_PAIRS + misfit * fit.scale) / (PRIOR_PAIRS + rows.length);
    const rowVariances = weighted.map(
      ({ row, weight, moved: shift }) => rowVarianceOf(row, scale, shift) / weight,
    );
    const next = prior(size);
    rows.forEach((row, i) => condition(next, row, rowVariances[i] ?? Infinity));
    fit = { ...next, rowVariances, scale };
  }
  return fit;
}

/** The posterior without one row: its information is subtracted. */
function leaveOneOut(fit: Fit, row: Row, rowVariance: number): Pick<Fit, 'mean' | 'covariance'> {
  const copy = { mean: fit.mean.slice(), covariance: fit.covariance.map((line) => line.slice()) };
  condition(copy, row, -rowVariance);
  return copy;
}

const factorOf = (priorMean: number, mean: number): number =>
  Math.min(MAX_FACTOR, Math.max(MIN_FACTOR, mean / priorMean));

const rowVarianceOf = (row: Row, scale: number, shift: number): number =>
  scale * factorOf(row.mean, row.mean + shift) ** 2 * row.animalVariance + row.readingVariance;

function prior(size: number): Pick<Fit, 'mean' | 'covariance'> {
  const covariance = Array.from({ length: size }, (_, i) =>
    Float64Array.from({ length: size }, (_, j) => (i === j ? 1 : 0)),
  );
  return { mean: new Float64Array(size), covariance };
}

/** Conditions the normal in place on one observation of this variance; a negative variance removes the observation. */
function condition(
  { mean, covariance }: Pick<Fit, 'mean' | 'covariance'>,
  row: Row,
  rowVariance: number,
): void {
  const crossCovariance = covariance.map((line) => dot(row.loadings, line));
  const variance = dot(row.loadings, crossCovariance) + rowVariance;
  const scaledInnovation = (row.deviation - dot(row.loadings, mean)) / variance;
  covariance.forEach((line, i) => {
    const step = crossCovariance[i] ?? 0;
    mean[i] = (mean[i] ?? 0) + step * scaledInnovation;
    crossCovariance.forEach((other, j) => (line[j] = (line[j] ?? 0) - (step * other) / variance));
  });
}

const dot = (at: Row['loadings'], values: ArrayLike<number>): number =>
  at.reduce((sum, [i, slope]) => sum + slope * (values[i] ?? 0), 0);

const quadratic = (at: Row['loadings'], covariance: readonly Float64Array[]): number =>
  dot(
    at,
    covariance.map((line) => dot(at, line)),
  );

const sumOf = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((sum, item) => sum + of(item), 0);
