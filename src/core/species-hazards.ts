/** Which cautions an animal's name calls for, beside those of the relative whose figures it took over. */

/** Ends of an English plural: one or two letters, so that `lynx` and `lynxes` are one animal. */
const named = (words: string): RegExp => new RegExp(`\\b(${words})(s|es)?\\b`, 'i');

/**
 * By name, as the sources in `resources/cautions.json` name the animals; squirrels and beavers as the rodents of
 * tularaemia. The pattern for trichinella stands in `species-heat.ts`, for it also asks for the higher heat.
 */
const HAZARDS: readonly { code: string; names: RegExp }[] = [
  { code: 'cwd', names: named('deer|elk|moose|caribou|reindeer|wapiti') },
  { code: 'brucellosis', names: named('boar|hog|pig|swine|javelina|peccary|peccaries') },
  { code: 'tularaemia', names: named('rabbit|cottontail|hare|squirrel|beaver|muskrat|marmot|groundhog') },
];

/**
 * The codes of cautions for an animal of this name, those of its relative first; each once.
 * @example cautionsByName('Snowshoe hare', ['ground-160']) // ['ground-160', 'tularaemia']
 */
export function cautionsByName(name: string, relatives: readonly string[]): string[] {
  const called = HAZARDS.filter(({ names }) => names.test(name)).map(({ code }) => code);
  return [...new Set([...relatives, ...called])];
}
