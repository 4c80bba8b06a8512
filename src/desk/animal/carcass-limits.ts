/** Plausible weights of an animal, or of the pieces that came in. A weight outside of them is mistyped. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { dressedToHanging } from '../../core/yield/convert.ts';
import { broughtOfWhole } from './primals.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

interface CarcassLimits {
  /** Minimum of one reading; 0 if there is none. */
  low: number;
  /** Maximum of all readings together. */
  high: number;
  /** Most likely weight, used to find the likely mistype. */
  target: number;
}

/** Cuts between neighbors vary, for example a fore leg with ribs or without. Assumption. */
const PIECES_TOLERANCE = 1.3;
/** Minimum hanging weight as a share of the received weight: hide, head and shrink never take half. Assumption. */
const MIN_OF_RECEIVED = 0.5;

/**
 * Limits in grams for a received or hanging weight. Pieces are compared with their shares of the lightest and the
 * heaviest such animal. Boned meat has no minimum, since a hunter may bring a single bag.
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

/** Boned in the field: the take-home share of a good carcass, not trimmed yet. */
function meatOfCarcass({ takeHome, takeHomeOfBoned }: SpeciesProfile): number {
  return Math.min(1, takeHome.high / takeHomeOfBoned.low);
}
