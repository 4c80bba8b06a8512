import type { Primal, SpeciesProfile } from '../../core/species/species.ts';
import type { Age, Brought, Sex } from '../../desk/contract/contract.ts';
import type { Draw } from './draw.ts';
import { ANIMALS, type InventedSpecies } from './invention.ts';

/** A hanging weight in grams, around the species' typical weight for the sex and age. */
export function sizeOf(
  { hangingGrams }: SpeciesProfile,
  kind: InventedSpecies,
  sex: Sex,
  age: Age,
  draw: Draw,
): number {
  const size = ANIMALS.sizes[sex === 'female' ? 'female' : 'male'][age];
  const grams = hangingGrams.typical * size * Math.exp(kind.hangingSpread * draw.normal());
  return Math.min(hangingGrams.most * 0.8, Math.max(hangingGrams.least * 1.5, grams));
}

/** A carcass, or the pieces that are received, with the weight that its shares refer to. */
export function broughtAs(
  profile: SpeciesProfile,
  brought: Brought,
  hanging: number,
  draw: Draw,
): { parts: { primal: string; count: number }[]; baseGrams: number } {
  switch (brought) {
    case 'quarters':
      return pieces(quartersOf(profile, draw), hanging);
    case 'primals':
      return pieces([{ primal: draw.pick(limbsOf(profile)), count: draw.whole(1, 2) }], hanging);
    case 'boned':
      return { parts: [], baseGrams: hanging * draw.between(0.36, 0.5) };
    default:
      return { parts: [], baseGrams: hanging };
  }
}

/** Shoulders and hind legs: the heaviest of the paired primals. */
function limbsOf({ primals }: SpeciesProfile): Primal[] {
  return primals
    .filter(({ pair }) => pair)
    .sort((a, b) => b.share - a.share)
    .slice(0, 2);
}

/** All four, often with back and neck. */
function quartersOf(profile: SpeciesProfile, draw: Draw): { primal: Primal; count: number }[] {
  const limbs = limbsOf(profile);
  const others = profile.primals.filter(
    ({ code }) => ['neck', 'saddle', 'loin'].includes(code) && !limbs.some((limb) => limb.code === code),
  );
  return [
    ...limbs.map((primal) => ({ primal, count: 2 })),
    ...others.filter(() => draw.maybe(0.6)).map((primal) => ({ primal, count: primal.pair ? 2 : 1 })),
  ];
}

function pieces(list: { primal: Primal; count: number }[], hanging: number) {
  const share = ({ primal, count }: { primal: Primal; count: number }): number =>
    primal.share * (primal.pair ? count / 2 : count);
  return {
    parts: list.map(({ primal, count }) => ({ primal: primal.code, count })),
    baseGrams: hanging * list.reduce((total, one) => total + share(one), 0),
  };
}
