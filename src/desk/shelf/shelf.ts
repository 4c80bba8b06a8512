/** What the shop offers and what it put away: species, products and ways to cut. */
import * as v from 'valibot';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { read } from '../session/procedure.ts';
import { productsOnShelf } from '../pricing/products-shelf.ts';
import { speciesCard } from '../supplied/resources.ts';
import type { DeskRoom } from '../session/room.ts';
import type { ShelfLook, SpeciesOnShelf } from '../contract/contract.ts';
import { isSupplied } from '../supplied/species-shelf.ts';
import { templatesOnShelf } from './templates-shelf.ts';

export const look = read(v.object({}), (room): ShelfLook => ({
  species: room.species.all.map((profile) => speciesOnShelf(room, profile)),
  products: productsOnShelf(room),
  templates: templatesOnShelf(room),
}));

export function speciesOnShelf(room: DeskRoom, profile: SpeciesProfile): SpeciesOnShelf {
  const { code, like, hangingGrams } = profile;
  const { least, typical, most } = hangingGrams;
  return {
    ...speciesCard(profile, room.species.own.has(code)),
    like: like ?? null,
    hangingGrams: { least, typical, most },
    supplied: isSupplied(code),
    offered: room.species.offered.some((one) => one.code === code),
  };
}
