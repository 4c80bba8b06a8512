import type { SeasonFilter, DistributionSummary, SplitBy, SpeciesYield } from '../../../bridge/contract.ts';
import { filterText } from '../../texts/en/season/frame.ts';
import { yieldsText as text } from '../../texts/en/season/yields.ts';
import { wordFor } from '../../texts/codes.ts';
import { text as words } from '../../../words/compiled/shared/common.ts';

/** One row of boxes: the common property of its animals, the distribution of their take-home, and a link to them. */
export interface SplitRow {
  label: string;
  /** The label within a sentence. */
  inSentence: string;
  spread: DistributionSummary;
  filter: SeasonFilter;
}

export interface SplitGroup {
  title: string;
  rows: SplitRow[];
}

export const SPLITS: readonly SplitBy[] = ['brought', 'sex', 'age', 'damaged', 'cutter', 'detail'];
const WORDS: Readonly<Record<SplitBy, Readonly<Record<string, string>>>> = {
  brought: words.broughtAs,
  sex: words.sex,
  age: words.age,
  damaged: text.damagedWords,
  detail: filterText.detailWords,
  cutter: {},
};

/** The rows of a species by one split, most animals first. */
function splitRows({ code, splits }: SpeciesYield, by: SplitBy): SplitRow[] {
  return splits[by]
    .toSorted((a, b) => b.spread.n - a.spread.n)
    .map(({ value, spread }) => {
      const word = by === 'cutter' ? value : wordFor(WORDS[by], value);
      return {
        label: word.replace(/^./, (letter) => letter.toUpperCase()),
        inSentence: by === 'cutter' ? value : word.toLowerCase(),
        spread,
        filter: { species: code, [by]: by === 'damaged' ? value === 'yes' : value },
      };
    });
}

/** All species by one split: a group for each. */
export function groupsOfSplit(species: readonly SpeciesYield[], by: SplitBy): SplitGroup[] {
  return species
    .toSorted((a, b) => (b.spread?.n ?? 0) - (a.spread?.n ?? 0))
    .map((one) => ({ title: one.name, rows: splitRows(one, by) }))
    .filter(({ rows }) => rows.length > 0);
}

/** One species by every split: a group for each. */
export function groupsOfSpecies(species: SpeciesYield): SplitGroup[] {
  return SPLITS.map((by) => ({ title: text.split[by], rows: splitRows(species, by) })).filter(
    ({ rows }) => rows.length > 1,
  );
}
