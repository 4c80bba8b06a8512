/** Fat estimates at one point of the shop's fat tests: of each source, and of shared components. */
import type { FatLotRecord } from '../../book/records/fat-lots.ts';
import { jointFat, type FatPredictor } from '../../core/fat/joint.ts';
import { fatOfKind } from '../../core/fat/kind.ts';
import type { CorrelatedFatEstimate, FatEstimate } from '../../core/fat/fat.ts';
import { ProblemError } from '../contract/problem.ts';

/** Means below 0 or above 1 are clamped. */
export interface FatEstimates {
  trim(animal: { id: number; species: string }): FatEstimate;
  lot(lot: Pick<FatLotRecord, 'id' | 'fat' | 'fat_sd'>): FatEstimate;
  /**
   * In fractions²; of a source with itself its variance. Trim of one kind shares the uncertainty of the kind's
   * mean.
   */
  covariance(one: WeighedSource, other: WeighedSource): number;
  /** SD of the weighted sum of the sources' fat. */
  sdOfSum(parts: readonly { of: WeighedSource; weight: number }[]): number;
}

/** The published figures by species. */
export interface FatShelf {
  of(species: string): { readonly trimFat: FatEstimate };
}

/** A source in a grind: a lot, or an animal's trim. */
export interface WeighedSource {
  animal_id: number | null;
  species: string | null;
  fat_lot_id: number | null;
  lot_fat: number | null;
  lot_fat_sd: number | null;
}

/** How closely the shop trims, in standard deviations of its published spread: all kinds depend on it. */
export const SHOP: CorrelatedFatEstimate = { id: 'shop', mean: 0, sd: 1 };

export const trimKey = (id: number): string => `trim ${id}`;
export const lotKey = (id: number): string => `fat ${id}`;
export const kindKey = (species: string): string => `species ${species}`;

export function trimOf({ id, species }: { id: number; species: string }): WeighedSource {
  return { animal_id: id, species, fat_lot_id: null, lot_fat: null, lot_fat_sd: null };
}

export function fatOf({ id, fat, fat_sd }: Pick<FatLotRecord, 'id' | 'fat' | 'fat_sd'>): WeighedSource {
  return { animal_id: null, species: null, fat_lot_id: id, lot_fat: fat, lot_fat_sd: fat_sd };
}

/** The fat estimate of one weighed part: of its lot, or of its animal's trim. */
export function fatOfSource(estimates: FatEstimates, source: WeighedSource): FatEstimate {
  const { animal_id: id, species, fat_lot_id: lotId, lot_fat: fat, lot_fat_sd: sd } = source;
  if (lotId !== null && fat !== null) return estimates.lot({ id: lotId, fat, fat_sd: sd ?? 0 });
  if (id === null || species === null) throw new ProblemError('broken', 'weighing.of-nothing');
  return estimates.trim({ id, species });
}

/**
 * Mean and SD of a batch's fat from its parts: parts of one source are fully correlated, and sources of one kind
 * share its mean. Null without grams.
 */
export function mixtureOf(
  estimates: FatEstimates,
  parts: readonly (WeighedSource & { grams: number })[],
): FatEstimate | null {
  const grams = parts.reduce((total, part) => total + part.grams, 0);
  if (grams === 0) return null;
  const mean = parts.reduce((sum, part) => sum + part.grams * fatOfSource(estimates, part).mean, 0) / grams;
  return { mean, sd: estimates.sdOfSum(parts.map((part) => ({ of: part, weight: part.grams / grams }))) };
}

/** @param ratioOf learned ratio of a species' animal-to-animal variance to the assumed one */
export function estimatesFrom(
  estimates: readonly CorrelatedFatEstimate[],
  ratioOf: (species: string) => number,
  shelf: FatShelf,
): FatEstimates {
  const joint = jointFat(estimates);
  const itself = (id: string): FatPredictor => ({ offset: 0, on: { id, loading: 1 }, terms: {} });

  const trimPredictor = ({ id, species }: { id: number; species: string }): FatPredictor => {
    const [animal, kind] = [trimKey(id), kindKey(species)];
    if (joint.has(animal)) return itself(animal);
    const { mean, shopSd, kindSd, ownSd } = fatOfKind(shelf.of(species).trimFat);
    const own = ownSd ** 2 * ratioOf(species);
    if (joint.has(kind)) return { ...itself(kind), terms: { [animal]: own } };
    return {
      offset: mean.mean,
      on: { id: SHOP.id, loading: shopSd },
      terms: { [kind]: kindSd ** 2, [animal]: own },
    };
  };
  const lotPredictor = ({ id, fat, fat_sd: sd }: { id: number; fat: number; fat_sd: number }): FatPredictor =>
    joint.has(lotKey(id)) ? itself(lotKey(id)) : { offset: fat, terms: { [lotKey(id)]: sd ** 2 } };
  const predictorOf = ({
    animal_id: id,
    species,
    fat_lot_id: lot,
    lot_fat: fat,
    lot_fat_sd: sd,
  }: WeighedSource) => {
    if (lot !== null && fat !== null) return lotPredictor({ id: lot, fat, fat_sd: sd ?? 0 });
    if (id === null || species === null) throw new ProblemError('broken', 'weighing.of-nothing');
    return trimPredictor({ id, species });
  };

  return {
    trim: (animal) => within(joint.estimate(trimPredictor(animal))),
    lot: (lot) => within(joint.estimate(lotPredictor(lot))),
    covariance: (one, other) => joint.covariance(predictorOf(one), predictorOf(other)),
    sdOfSum: (parts) => joint.sdOfSum(parts.map(({ of, weight }) => ({ of: predictorOf(of), weight }))),
  };
}

function within({ mean, sd }: FatEstimate): FatEstimate {
  return { mean: Math.min(1, Math.max(0, mean)), sd };
}
