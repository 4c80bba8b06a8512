/** The shop's offered and archived species, products and cutting templates. */
import * as v from 'valibot';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { read } from '../session/procedure.ts';
import { productsOnShelf } from '../pricing/products-shelf.ts';
import { speciesCard } from '../supplied/resources.ts';
import type { Session } from '../session/session.ts';
import type { ShelfView, SpeciesOnShelf } from '../contract/contract.ts';
import { isSupplied } from '../supplied/species-shelf.ts';
import { templatesOnShelf } from './templates-shelf.ts';

export const get = read(v.object({}), (session): ShelfView => ({
  species: session.species.all.map((profile) => speciesOnShelf(session, profile)),
  products: productsOnShelf(session),
  templates: templatesOnShelf(session),
}));

export function speciesOnShelf(session: Session, profile: SpeciesProfile): SpeciesOnShelf {
  const { code, like, hangingGrams } = profile;
  const { least, typical, most } = hangingGrams;
  return {
    ...speciesCard(profile, session.species.own.has(code)),
    like: like ?? null,
    hangingGrams: { least, typical, most },
    supplied: isSupplied(code),
    offered: session.species.offered.some((one) => one.code === code),
  };
}
