import type { SeasonFilter, DistributionSummary, SplitBy, SpeciesYield } from '../../../bridge/contract.ts';
import { wordFor } from '../../texts/codes.ts';
import { text as words } from '../../../words/compiled/shared/common.ts';
import { text as filterText } from '../../../words/compiled/window/season/filter.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';

/** One row of boxes: the common property of its animals, the distribution of their take-home, and a link to them. */
export interface SplitRow {
  label: string;
  spread: DistributionSummary;
  filter: SeasonFilter;
}

export interface SplitGroup {
  title: string;
  rows: SplitRow[];
}

export const SPLITS: readonly SplitBy[] = ['brought', 'sex', 'age', 'damaged', 'cutter', 'detail'];

/** The names of a split's values; cutters are their own. */
function wordsOf(by: SplitBy): Readonly<Record<string, string>> {
  switch (by) {
    case 'brought':
      return words.brought;
    case 'sex':
      return words.sex;
    case 'age':
      return words.age;
    case 'damaged':
      return text.damagedWords;
    case 'detail':
      return filterText.detailWords;
    case 'cutter':
      return {};
  }
}

/** The rows of a species by one split, most animals first. */
function splitRows({ code, splits }: SpeciesYield, by: SplitBy): SplitRow[] {
  return splits[by]
    .toSorted((a, b) => b.spread.n - a.spread.n)
    .map(({ value, spread }) => {
      return {
        label: by === 'cutter' ? value : wordFor(wordsOf(by), value),
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
