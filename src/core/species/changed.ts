/** A supplied species as a shop calls it and meets it; its published figures stay what they are. */
import { ValidationError } from '../values/validation-error.ts';
import { cautionsByName } from './hazards.ts';
import type { SpeciesWish } from './own.ts';
import type { SpeciesProfile } from './species.ts';

/**
 * The same profile with the shop's names, its words for the sexes, its hanging weights and its names for the primals.
 * Shares of primals stay: they are published, and what hangs by their codes is in the book.
 * @throws ValidationError `species.supplied-primals` where primals were added or left out; `species.primal-twice`
 * @example changedSpecies(whiteTail, { name: 'Deer', … }).takeHome === whiteTail.takeHome // true
 */
export function changedSpecies(supplied: SpeciesProfile, wish: Omit<SpeciesWish, 'code'>): SpeciesProfile {
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
