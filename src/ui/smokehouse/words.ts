/** Options and names of the smokehouse's codes. */
import type { AdditionRole, Allergen, Ppm } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/smokehouse.ts';
import { inLanguage } from '../../words/area.ts';
import { currentLanguage } from '../../words/speech.ts';

type Named = Readonly<Record<string, string>>;

/** The codes of a group of words with their names, for a list to pick from. */
export const pairsOf = (words: Named): (readonly [string, string])[] => Object.entries(words);

/** The same for a `Choice`. */
export const choicesOf = <T extends string>(
  words: Readonly<Record<T, string>>,
): { value: T; label: string }[] =>
  (Object.keys(words) as T[]).map((value) => ({ value, label: words[value] }));

/** Allergens in a line, with the nut, the fish or the crustacean: `Milk, Tree nuts (pecan)`. */
export function allergenNames(
  contains: readonly { allergen: Allergen; kinds: readonly string[] }[],
  language = currentLanguage(),
): string {
  const said = inLanguage(text, language);
  return contains
    .map(({ allergen, kinds }) => {
      const name = said.allergens[allergen];
      return kinds.length > 0 ? said.allergenOf({ allergen: name, kinds: kinds.join(', ') }) : name;
    })
    .join(', ');
}

/** Ingoing ppm in a line, without agents that are not there; '' where a strength is missing. */
export function agentsOf(ppm: Ppm | null): string {
  return (['nitrite', 'nitrate', 'accelerator'] as const)
    .filter((agent) => ppm && ppm[agent] > 0)
    .map((agent) => text.ppm({ ppm: ppm?.[agent] ?? 0, agent: agent === 'accelerator' ? 'other' : agent }))
    .join(', ');
}

/** The cure after everything else, as it goes into the meat. */
export function cureLast<T extends { role: AdditionRole }>(amounts: readonly T[]): T[] {
  const late = ({ role }: T): number => Number(role === 'cure' || role === 'accelerator');
  return [...amounts].sort((a, b) => late(a) - late(b));
}
