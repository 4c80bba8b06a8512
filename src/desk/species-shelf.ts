/** The kinds of game that a shop knows: the supplied profiles, and its own beside or in place of them. */
import type { Book } from '../book/book.ts';
import { changedSpecies } from '../core/species-changed.ts';
import { ownSpecies } from '../core/species-own.ts';
import type { SpeciesProfile } from '../core/species.ts';
import { Trouble } from './problem.ts';
import { SPECIES } from './resources.ts';

export interface SpeciesShelf {
  /** Every profile that an animal of the book may have, those put away included. */
  readonly all: readonly SpeciesProfile[];
  /** Those that are offered at intake and in a quote. */
  readonly offered: readonly SpeciesProfile[];
  /** Codes of profiles that the shop made or changed. */
  readonly own: ReadonlySet<string>;
  /** @throws Trouble `species.unknown` */
  of(code: string): SpeciesProfile;
}

export function speciesShelf({ ownSpecies }: Pick<Book, 'ownSpecies'>): SpeciesShelf {
  const rows = ownSpecies.all();
  const own = new Map<string, SpeciesProfile>();
  for (const { code, profile } of rows) {
    const kept = JSON.parse(profile) as SpeciesProfile | null;
    if (kept) own.set(code, withTodaysFigures(kept));
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
        throw new Trouble('missing', 'species.unknown', { field: 'species', with: { species: code } });
      return found;
    },
  };
}

/**
 * What the shop said of a species stays as it was kept; figures and cautions that it took over are those of this
 * program, so that what is put right here is put right for the species made from it too. One whose relative is unknown here was
 * kept by a later program and is taken as it stands.
 */
function withTodaysFigures(kept: SpeciesProfile): SpeciesProfile {
  const hangingGrams = { ...kept.hangingGrams, grade: 'assumption' as const, cites: [] };
  const wish = { ...kept, hangingGrams };
  const supplied = SPECIES.find(({ code }) => code === kept.code);
  if (supplied) return changedSpecies(supplied, wish);
  const relative = SPECIES.find(({ code }) => code === kept.like);
  return relative ? ownSpecies(relative, wish) : kept;
}

/** Whether a species came with the program. */
export function isSupplied(code: string): boolean {
  return SPECIES.some((supplied) => supplied.code === code);
}
