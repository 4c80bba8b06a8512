/** Labels in the languages of those who get them. */
import type { HunterCard } from '../../bridge/contract.ts';
import { labelLanguages } from '../../words/hunter-language.ts';
import type { Language } from '../../words/languages.ts';
import type { LabelRun } from './package-label.ts';

/** Whose a label is, and the language that was chosen for them. */
interface Owner {
  ticket: string;
  hunter: Pick<HunterCard, 'language'>;
}

/** All languages that labels of these animals need. */
export function languagesFor(animals: readonly Owner[], locale: string): Language[] {
  return [...new Set(animals.flatMap(({ hunter }) => labelLanguages(hunter.language, locale)))];
}

/**
 * The runs of the window, each with what is printed: the same run in the languages of its owner.
 * @param said the same runs in each language
 */
export function saidRuns(
  shown: readonly LabelRun[],
  said: ReadonlyMap<Language, readonly LabelRun[]>,
  animals: readonly Owner[],
  locale: string,
): LabelRun[] {
  return shown.map((run) => {
    const owner = animals.find(({ ticket }) => ticket === run.label.ticket);
    const printed = labelLanguages(owner?.hunter.language ?? '', locale).flatMap((language) => {
      const same = said.get(language)?.find(({ key }) => key === run.key);
      return same ? [same.label] : [];
    });
    return printed.length > 0 ? { ...run, label: { ...run.label, printed } } : run;
  });
}
