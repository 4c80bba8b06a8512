/** The primals of one animal: which came in, and their usual weights. */
import type { WeighingRecord } from '../../book/records/weighings.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { PrimalWeighed } from '../contract/contract.ts';

export interface PrimalKnown {
  code: string;
  name: string;
  pair: boolean;
  /** Pieces that came in; 0 if none. */
  brought: number;
  /** Share of everything that came in; 0 if none. */
  share: number;
}

/** Relative standard deviation of one primal's share. Assumption. */
export const PRIMAL_SPREAD = 0.15;
/** Beyond this many standard deviations a primal needs confirmation. */
export const ASK_SD = 3;
/** Half the width of an 80 % range, in standard deviations. */
const EIGHT_IN_TEN = 1.2816;
/** If both sides of a pair came in, less than this fraction of the usual weight is one side. */
const ONE_SIDE = 0.7;

const sidesOf = ({ pair }: { pair: boolean }): number => (pair ? 2 : 1);

/**
 * All primals of the species with the pieces that came in: all of a whole animal, else those counted at intake.
 * @example // an elk of which two hind legs and a shoulder came in
 * primalsOf(elk, [{ primal: 'haunch', count: 2 }, { primal: 'shoulder', count: 1 }])
 * // hind legs 0.3913 of the carcass, the shoulder 0.0884: shares 0.816 and 0.184 of what came in
 */
export function primalsOf(
  { primals }: Pick<SpeciesProfile, 'primals'>,
  parts: readonly { primal: string; count: number }[],
): PrimalKnown[] {
  const came = primals.map((primal) => {
    const counted = parts.find((part) => part.primal === primal.code)?.count ?? 0;
    const brought = parts.length === 0 ? sidesOf(primal) : counted;
    return { primal, brought, ofWhole: (primal.share * brought) / sidesOf(primal) };
  });
  const all = came.reduce((total, { ofWhole }) => total + ofWhole, 0);
  return came.map(({ primal: { code, name, pair }, brought, ofWhole }) => ({
    code,
    name,
    pair,
    brought,
    share: all > 0 ? ofWhole / all : 0,
  }));
}

/** Received share of a whole carcass, and its smallest single piece, both as shares of the carcass. */
export function broughtOfWhole(
  { primals }: Pick<SpeciesProfile, 'primals'>,
  parts: readonly { primal: string; count: number }[],
): { all: number; lightest: number } {
  const whole = primals.reduce((total, { share }) => total + share, 0);
  const pieces = primals.flatMap((primal) => {
    const count = parts.find((part) => part.primal === primal.code)?.count ?? 0;
    return count > 0 ? [{ count, each: primal.share / sidesOf(primal) / whole }] : [];
  });
  if (pieces.length === 0) return { all: 1, lightest: 0 };
  return {
    all: pieces.reduce((total, { count, each }) => total + count * each, 0),
    lightest: Math.min(...pieces.map(({ each }) => each)),
  };
}

/** Whether the recorded weight can only be one side of a pair. */
export function oneSideOnly(primal: PrimalKnown, grams: number, base: number): boolean {
  return primal.pair && primal.brought > 1 && grams > 0 && grams < primal.share * base * ONE_SIDE;
}

/** Weighings of primals without voided ones, by primal code. */
export function primalRows<R extends Pick<WeighingRecord, 'stage' | 'void_at' | 'primal'>>(
  rows: readonly R[],
): Map<string, R[]> {
  return Map.groupBy(
    rows.filter(({ stage, void_at }) => stage === 'primal' && void_at === null),
    ({ primal }) => primal ?? '',
  );
}

/**
 * The base of the usual shares: the median of the animal's own weight and of the weights that each primal implies by
 * its usual share. A single mistyped weight then makes no other weight look unusual.
 * @example // 300 lb hanging typed as 200 lb; primals that imply 290, 300, 303 and 310 lb: 300 lb
 */
export function likelyBase(
  primals: readonly PrimalKnown[],
  weighed: ReadonlyMap<string, readonly { grams: number }[]>,
  base: number,
): number {
  const implied = primals.flatMap((primal) => {
    const grams = (weighed.get(primal.code) ?? []).reduce((total, row) => total + row.grams, 0);
    const whole = grams > 0 && primal.share > 0 && !oneSideOnly(primal, grams, base);
    return whole ? [grams / primal.share] : [];
  });
  if (implied.length < 2) return base;
  const sorted = [...implied, base].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? base) + (sorted[Math.ceil(middle)] ?? base)) / 2;
}

/**
 * The primals as the Table shows them: weighed, usual range, unusual or not. `suspect` tells which weighings the
 * balance doubts.
 */
export function primalsWeighed(
  species: Pick<SpeciesProfile, 'primals'>,
  parts: readonly { primal: string; count: number }[],
  rows: readonly WeighingRecord[],
  base: number | null,
  suspect: (weighingId: number) => boolean,
): PrimalWeighed[] {
  const weighed = primalRows(rows);
  const primals = primalsOf(species, parts);
  const likely = base === null ? null : likelyBase(primals, weighed, base);
  return primals.map((primal) => {
    const { code, name, pair, brought, share } = primal;
    const readings = weighed.get(code) ?? [];
    const grams = readings.reduce((total, row) => total + row.grams, 0);
    const mean = likely === null ? null : share * likely;
    const half = likely !== null && oneSideOnly(primal, grams, likely);
    const far = mean !== null && !half && Math.abs(grams - mean) > ASK_SD * PRIMAL_SPREAD * mean;
    return {
      code,
      name,
      pair,
      brought,
      grams: readings.length > 0 ? grams : null,
      share: base === null || readings.length === 0 ? null : grams / base,
      usual: mean === null || brought === 0 ? null : usualRange(mean),
      odd: readings.length > 0 && (far || readings.some(({ id }) => suspect(id))),
      oneSide: half,
    };
  });
}

/** The 80 % range. */
export function usualRange(mean: number): { low: number; high: number } {
  const wide = EIGHT_IN_TEN * PRIMAL_SPREAD;
  return { low: mean * (1 - wide), high: mean * (1 + wide) };
}
