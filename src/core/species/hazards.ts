/** The cautions that an animal's name calls for, in addition to those of the relative whose figures it uses. */

/** Plural endings: one or two letters, so that `lynx` and `lynxes` match. */
const named = (words: string): RegExp => new RegExp(`\\b(${words})(s|es)?\\b`, 'i');

/**
 * Animals whose meat carries trichinella: bear, boar and pigs, wild cats, foxes, wolves, seals and walruses (CDC,
 * "Trichinellosis", https://www.cdc.gov/trichinellosis; the list is from memory, badger, coyote and raccoon are added
 * by us to be on the safe side).
 */
const CARRIERS = named(
  'bear|grizzly|grizzlies|boar|hog|pig|swine|javelina|peccary|peccaries|cougar|puma|lion|lynx|bobcat|fox|wolf|wolves|coyote|badger|raccoon|seal|walrus',
);

/**
 * Animals that may carry brucellosis: wild hogs, elk, bison, caribou, moose, deer, and bears and wolves that fed on
 * them (CDC, "Brucellosis: Hunters", https://www.cdc.gov/brucellosis/exposure/hunters.html); their other names,
 * javelina and peccary are added by us to be on the safe side.
 */
const BRUCELLOSIS = named(
  'boar|hog|pig|swine|javelina|peccary|peccaries|elk|wapiti|bison|buffalo|caribou|reindeer|moose|deer|bear|grizzly|grizzlies|wolf|wolves',
);

/**
 * By name, as the sources in `resources/cautions.json` name the animals; squirrels and beavers are the rodents of
 * tularaemia.
 */
const HAZARDS: readonly { code: string; names: RegExp }[] = [
  { code: 'trichinella-cooking', names: CARRIERS },
  { code: 'trichinella', names: CARRIERS },
  { code: 'cwd', names: named('deer|elk|moose|caribou|reindeer|wapiti') },
  { code: 'brucellosis', names: BRUCELLOSIS },
  { code: 'tularaemia', names: named('rabbit|cottontail|hare|squirrel|beaver|muskrat|marmot|groundhog') },
];

/**
 * The codes of the cautions for an animal of this name, its relative's first, without duplicates.
 * @example cautionsByName('Snowshoe hare', ['lead']) // ['lead', 'tularaemia']
 */
export function cautionsByName(name: string, relatives: readonly string[]): string[] {
  const called = HAZARDS.filter(({ names }) => names.test(name)).map(({ code }) => code);
  return [...new Set([...relatives, ...called])];
}
