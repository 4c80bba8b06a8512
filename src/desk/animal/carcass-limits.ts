/** Between which weights an animal, or what came in of it, can be: beyond them it is surely mistyped. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { dressedToHanging } from '../../core/yield/convert.ts';
import { broughtOfWhole } from './primals.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

interface CarcassLimits {
  /** The least that one reading can be; 0 where anything can be. */
  low: number;
  /** The most that all readings together can be. */
  high: number;
  /** What it would most likely weigh, to look for a slip. */
  target: number;
}

/** Pieces are cut with more or less of their neighbours, a fore leg with ribs or without. Assumption. */
const PIECES_TOLERANCE = 1.3;
/** A hanging weight far below what came in is a slip too: hide, head and shrink never take half. Assumption. */
const MIN_OF_RECEIVED = 0.5;

/**
 * Limits in grams for a weight as it came in or on the hook. Pieces are held against their shares of the heaviest
 * and of the lightest such animal; boned meat has no least, since somebody may bring a bag of it.
 */
export function carcassLimits(
  animal: Pick<AnimalRow, 'brought' | 'legs' | 'sex'>,
  species: SpeciesProfile,
  stage: string,
  parts: readonly { primal: string; count: number }[],
  received: number | null,
): CarcassLimits {
  const { least, low: usualLow, typical, most } = species.hangingGrams;
  if (!isWholeCarcass(animal.brought)) {
    const { all, lightest } = broughtOfWhole(species, parts);
    const boned = animal.brought === 'boned';
    const meat = boned ? meatOfCarcass(species) : 1;
    return {
      low: boned ? 0 : (least * lightest) / PIECES_TOLERANCE,
      high: Math.min(most, most * all * meat * PIECES_TOLERANCE),
      target: typical * all * meat,
    };
  }
  const between = (low: number, high: number): CarcassLimits => ({
    low,
    high,
    target: Math.sqrt(Math.max(low, usualLow) * high),
  });
  if (stage === 'hanging')
    return between(received === null ? least : Math.max(least, received * MIN_OF_RECEIVED), most);
  const { ratios } = species;
  const ofLive = ratios.liveToDressed.mean * ratios.dressedToHanging.mean;
  const hangs = stage === 'live' ? ofLive : dressedToHanging(ratios, animal).mean;
  const perHanging = animal.brought === 'skinned' ? 1 : 1 / hangs;
  return between(least, most * perHanging);
}

/** Boned in the field: what goes home of a good carcass, with the trimming still on it. */
function meatOfCarcass({ takeHome, takeHomeOfBoned }: SpeciesProfile): number {
  return Math.min(1, takeHome.high / takeHomeOfBoned.low);
}
