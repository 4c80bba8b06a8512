/** Carcasses weighed primal by primal before cutting: some of the animals with every part weighed. */
import { primalsOf, PRIMAL_SPREAD } from '../desk/animal/primals.ts';
import type { DemoAnimal } from './invented/animal.ts';
import { drawing } from './invented/draw.ts';
import { SEASONS } from './invented/invention.ts';
import { allWeights } from './invented/slips.ts';
import { gramsOf, STEP_GRAMS, typedOf } from './invented/typed.ts';

/** A separate random stream for the block. */
const BLOCK = 47;
const BROKEN_DOWN = 0.5;
/** One cutter's primals vary less than those across shops, by this factor. */
const ALIKE = 0.45;
/** The two sides of a pair differ by up to this share. */
const SIDES = 0.03;
/** Sawdust and drip, as a share of the carcass. */
const RESIDUE = [0, 0.004] as const;

interface PieceWeighed {
  primal: string;
  typed: string;
}

/**
 * The typed weight of each piece at the block, in the order of the carcass; none for most animals. Animals with a
 * slip are skipped, so that the slip stays as hard to find as planted.
 */
export function piecesWeighed(animal: DemoAnimal): PieceWeighed[] {
  const { season, number, profile, parts, brought, detailed, weights } = animal;
  const draw = drawing(SEASONS.seed, season.season, number, BLOCK);
  const base = (weights.hook[0] ?? weights.intake[0])?.typed;
  const clean = allWeights(animal).every(({ slip }) => !slip);
  const fits = season.mistakes && detailed && brought !== 'boned' && clean;
  if (!fits || base === undefined || !draw.maybe(BROKEN_DOWN)) return [];
  const came = primalsOf(profile, parts)
    .filter(({ share }) => share > 0)
    .map((primal) => ({ primal, size: primal.share * Math.exp(ALIKE * PRIMAL_SPREAD * draw.normal()) }));
  const all = came.reduce((total, { size }) => total + size, 0);
  const grams = gramsOf(base) * (1 - draw.between(...RESIDUE));
  return came.flatMap(({ primal: { code, brought: count }, size }) => {
    const whole = (grams * size) / all;
    const left = count > 1 ? 0.5 + SIDES * draw.normal() : 1;
    return [left, 1 - left]
      .map((share) => whole * share)
      .filter((piece) => piece > STEP_GRAMS)
      .map((piece) => ({ primal: code, typed: typedOf(piece) }));
  });
}
