/** What a hunter's own check-in shows: what there is to choose from, and nothing of anybody. */
import * as v from 'valibot';
import type { SpeciesProfile } from '../../../core/species/species.ts';
import type { HunterLanguage } from '../../../words/hunter-language.ts';
import type { DraftSheet, DraftWay, Instructions } from '../../contract/contract.ts';
import { namesIn } from '../../names/names.ts';
import { publicPrices } from '../../pricing/public-prices.ts';
import { dropOffTerms } from '../../session/drop-off-terms.ts';
import { read } from '../../session/procedure.ts';
import type { Session } from '../../session/session.ts';
import { templateCards, usualOrders } from '../../shelf/templates-shelf.ts';
import { FATS } from '../../supplied/resources.ts';
import { chargesOfOrders } from './draft-charges.ts';
import { language } from './draft-input.ts';

/** What a hunter chooses from, in the hunter's language, with the prices that hang in the shop for everybody to read. */
export const begin = read(v.object({ language }), (session, input): DraftSheet =>
  draftSheet(session, input.language),
);

export function draftSheet(session: Session, of: HunterLanguage): DraftSheet {
  const names = namesIn(of);
  const { shopName, unit } = session.settings;
  const { offered } = session.species;
  const terms = dropOffTerms(session, of);
  const chargesOf = chargesOfOrders(session);
  const wayOf = (title: string, carcass: string | null, instructions: Instructions): DraftWay => {
    const made = [instructions.grindProduct, ...instructions.alsoGround.map(({ product }) => product)];
    return {
      title,
      fits: offered.filter((species) => fits(species, carcass, instructions)).map(({ code }) => code),
      instructions,
      made: made.map((product) => names.said('product.*', product)),
      charges: chargesOf(instructions),
    };
  };
  return {
    shopName,
    today: session.today(),
    unit,
    terms: terms.text,
    termsLanguage: terms.language,
    species: offered.map(({ code, name, words, body, primals }) => ({
      code,
      title: names.said('species.*.name', name, code),
      male: names.said('species.*.male', words.male, code),
      female: names.said('species.*.female', words.female, code),
      body,
      primals: primals.map((primal) => ({
        code: primal.code,
        title: names.said('primal.*', primal.name, primal.code),
      })),
    })),
    usual: wayOf('', null, { ...usualOrders(session), standard: true }),
    ways: templateCards(session).map(({ name, carcass, instructions }) =>
      wayOf(names.said('template.*', name), carcass, instructions),
    ),
    fats: FATS.map(({ code, name }) => ({ code, title: names.said('fat.*', name, code) })),
    prices: publicPrices(session, (label) => names.said('price.*', label)),
  };
}

/** Whether the template is for this body, and the species has every primal that it names. */
function fits(
  { body, primals }: SpeciesProfile,
  carcass: string | null,
  { primals: orders }: Instructions,
): boolean {
  const has = orders.every(({ primal }) => primals.some(({ code }) => code === primal));
  return has && (carcass === null || carcass === body);
}
