import species from '../../../resources/species.json' with { type: 'json' };
import type { SpeciesProfile } from '../../../src/core/species/species.ts';
import { hangingFrom, type WeighedAs } from '../../../src/core/yield/convert.ts';
import { learn, predict, type Group, type Part } from '../../../src/core/yield/yield.ts';

export const profiles = species as SpeciesProfile[];
const model = learn(profiles, []);

export function profileOf(code: string): SpeciesProfile {
  const found = profiles.find((profile) => profile.code === code);
  if (!found) throw new Error(`no profile ${code}`);
  return found;
}

/** Hanging weight as a share of the weight at some stage. */
export function hangingShare(
  code: string,
  stage: WeighedAs,
  sex: 'male' | 'female' | 'unknown' = 'unknown',
): number {
  return hangingFrom({ stage, grams: 1, profile: profileOf(code), sex, level: 0.8 }).grams;
}

/** A part as a share of the hanging weight, before a shop has weighed any animal. */
export function partOfHanging(
  code: string,
  part: Part,
  { brought = 'skinned', sex = 'unknown' }: Partial<Pick<Group, 'brought' | 'sex'>> = {},
): number {
  const asked = { hangingGrams: 1, level: 0.8, seed: 1, group: { species: code, brought, sex } };
  return predict(model, asked).parts[part].mean;
}
