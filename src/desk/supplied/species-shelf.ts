/** The species that a shop knows: the supplied profiles, and its own in addition to or instead of them. */
import * as v from 'valibot';
import type { Book } from '../../book/book.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import { changedSpecies } from '../../core/species/changed.ts';
import { ownSpecies } from '../../core/species/own.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { ProblemError } from '../contract/problem.ts';
import { SPECIES } from './resources.ts';

export interface SpeciesShelf {
  /** Every profile that an animal of the book may have, archived ones included. */
  readonly all: readonly SpeciesProfile[];
  /** Those offered at intake and in a quote. */
  readonly offered: readonly SpeciesProfile[];
  /** Codes of profiles that the shop made or changed. */
  readonly own: ReadonlySet<string>;
  /** @throws ProblemError `species.unknown` */
  of(code: string): SpeciesProfile;
}

/** The fields read from a stored profile before its figures are updated. */
const profileSchema = v.looseObject({
  code: v.string(),
  name: v.string(),
  many: v.string(),
  body: v.string(),
  family: v.string(),
  words: v.object({ male: v.string(), female: v.string(), young: v.string() }),
  hangingGrams: v.looseObject({}),
  primals: v.pipe(
    v.array(v.looseObject({ code: v.string(), name: v.string(), pair: v.boolean(), share: v.number() })),
    v.minLength(1),
  ),
  cautions: v.array(v.string()),
});

function isProfile(kept: unknown): kept is SpeciesProfile {
  if (!v.is(profileSchema, kept)) return false;
  try {
    return withTodaysFigures(kept as unknown as SpeciesProfile).primals.length > 0;
  } catch (error) {
    if (error instanceof ValidationError || error instanceof TypeError) return false;
    throw error;
  }
}

export function speciesShelf({ ownSpecies }: Pick<Book, 'ownSpecies'>): SpeciesShelf {
  const rows = ownSpecies.all();
  const own = new Map<string, SpeciesProfile>();
  for (const { code, profile } of rows) {
    const kept: unknown = JSON.parse(profile);
    // An invalid stored profile is ignored, and the supplied one applies.
    if (isProfile(kept) && kept.code === code) own.set(code, withTodaysFigures(kept));
  }
  const away = new Set(rows.filter(({ active }) => active === 0).map(({ code }) => code));
  const all =
    own.size === 0
      ? SPECIES
      : [
          ...SPECIES.map((supplied) => own.get(supplied.code) ?? supplied),
          ...[...own.values()].filter(({ code }) => !isSupplied(code)),
        ];
  const byCode = new Map(all.map((profile) => [profile.code, profile]));
  return {
    all,
    offered: all.filter(({ code }) => !away.has(code)),
    own: new Set(own.keys()),
    of(code) {
      const found = byCode.get(code);
      if (!found)
        throw new ProblemError('missing', 'species.unknown', { field: 'species', with: { species: code } });
      return found;
    },
  };
}

/**
 * The shop's own fields of a species are kept; copied figures and cautions are updated to this program's, so that
 * corrections here reach the species derived from it. One with an unknown relative was stored by a later program
 * and is used unchanged.
 */
function withTodaysFigures(kept: SpeciesProfile): SpeciesProfile {
  const hangingGrams = { ...kept.hangingGrams, grade: 'assumption' as const, cites: [] };
  const wish = { ...kept, hangingGrams };
  const supplied = SPECIES.find(({ code }) => code === kept.code);
  if (supplied) return changedSpecies(supplied, wish);
  const relative = SPECIES.find(({ code }) => code === kept.like);
  return relative ? ownSpecies(relative, wish) : kept;
}

/** Whether a species is supplied with the program. */
export function isSupplied(code: string): boolean {
  return SPECIES.some((supplied) => supplied.code === code);
}
