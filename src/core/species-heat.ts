/** The heat that ground meat of a shop's own species must reach. */
import { CoreProblem } from './problem.ts';
import { cautionsByName } from './species-hazards.ts';
import type { GroundHeat, SpeciesProfile } from './species.ts';

/**
 * Animals whose meat carries trichinella, by the words of their names: bear, boar and pigs, wild cats, foxes, wolves,
 * seals and walruses (CDC, "Trichinellosis", https://www.cdc.gov/trichinellosis; the list is from memory, badger,
 * coyote and raccoon are added by us to be on the safe side).
 */
const CARRIERS =
  /\b(bears?|grizzl(y|ies)|boars?|hogs?|pigs?|swine|javelinas?|peccar(y|ies)|cougars?|pumas?|lions?|lynx(es)?|bobcats?|fox(es)?|wol(f|ves)|coyotes?|badgers?|raccoons?|seals?|walrus(es)?)\b/i;

const HEATS: Readonly<Record<160 | 165, GroundHeat>> = { 160: { f: 160, c: 71 }, 165: { f: 165, c: 74 } };

/**
 * The least heat in °F for ground meat of an animal of this name with such a relative: 165 where either is a carrier of
 * trichinella, else 160 (USDA FSIS for ground meat; CDC for bear, boar and cougar).
 * @example leastHeat('Grizzly bear', { cookTo: { ground: { f: 160, c: 71 }, … } }) // 165
 */
export function leastHeat(name: string, relative: Pick<SpeciesProfile, 'cookTo'>): 160 | 165 {
  return CARRIERS.test(name) ? 165 : relative.cookTo.ground.f;
}

/**
 * The heat that the shop asks for, and the relative's cautions with the right one of 160 and 165 °F among them, and
 * with what the animal's own name calls for: a carrier is told of trichinella, a rabbit of tularaemia.
 * @throws CoreProblem `species.cook-to` where it is below `leastHeat`
 */
export function heatOf(
  name: string,
  relative: Pick<SpeciesProfile, 'cookTo' | 'cautions'>,
  fahrenheit: 160 | 165,
): { ground: GroundHeat; cautions: string[] } {
  const least = leastHeat(name, relative);
  if (fahrenheit < least) throw new CoreProblem('species.cook-to', 'cookToF', { heat: least, name });
  const other = fahrenheit === 165 ? 'ground-160' : 'ground-165';
  const cautions = relative.cautions.map((code) => (code === other ? `ground-${fahrenheit}` : code));
  const carried = CARRIERS.test(name) ? [...cautions, 'trichinella'] : cautions;
  return { ground: HEATS[fahrenheit], cautions: cautionsByName(name, carried) };
}
