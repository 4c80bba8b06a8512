/** A supplied species with the shop's own names and weights; its published figures do not change. */
import { ValidationError } from '../values/validation-error.ts';
import { cautionsByName } from './hazards.ts';
import type { SpeciesInput } from './own.ts';
import type { SpeciesProfile } from './species.ts';

/**
 * The same profile with the shop's name, words for the sexes, hanging weights and names of primals. Shares of
 * primals stay: they are published, and the book's records refer to their codes.
 * @throws ValidationError `species.supplied-primals` where primals were added or left out; `species.primal-twice`
 * @example changedSpecies(whiteTail, { name: 'Deer', … }).takeHome === whiteTail.takeHome // true
 */
export function changedSpecies(supplied: SpeciesProfile, wish: Omit<SpeciesInput, 'code'>): SpeciesProfile {
  const names = new Map(wish.primals.map(({ code, name }) => [code, name]));
  const known = supplied.primals.every(({ code }) => names.has(code));
  if (!known || wish.primals.length !== supplied.primals.length)
    throw new ValidationError('species.supplied-primals', 'primals', { name: supplied.name });
  const called = [...names.values()].map((name) => name.toLowerCase());
  const twice = called.find((name, i) => called.indexOf(name) !== i);
  if (twice !== undefined) throw new ValidationError('species.primal-twice', 'primals', { primal: twice });
  return {
    ...supplied,
    name: wish.name,
    many: wish.many,
    words: wish.words,
    hangingGrams: wish.hangingGrams,
    primals: supplied.primals.map((primal) => ({ ...primal, name: names.get(primal.code) ?? primal.name })),
    cautions: cautionsByName(wish.name, supplied.cautions),
  };
}
