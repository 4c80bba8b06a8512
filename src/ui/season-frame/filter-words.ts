import type { SeasonFilter } from '../../bridge/contract.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/season/filter.ts';
import type { Format } from '../texts/format.ts';

/**
 * The parts of a filter as texts that can be joined with commas; without the season.
 * @example filterWords({ brought: 'skinned', sex: 'male' }, () => '', format) // ['brought skinned', 'males']
 */
export function filterWords(
  filter: SeasonFilter,
  speciesName: (code: string) => string,
  format: Format,
): string[] {
  const { species, brought, sex, age, damaged, detail, cutter, from, to } = filter;
  return [
    species && speciesName(species),
    brought && words.broughtAs[brought],
    sex && text.sexes[sex],
    age && text.ages[age],
    damaged !== undefined && (damaged ? text.damaged : text.undamaged),
    detail && text.details[detail],
    cutter && text.cutBy({ initials: cutter }),
    (from || to) && dayWords(from, to, format),
  ].filter((piece): piece is string => Boolean(piece));
}

function dayWords(from: string | undefined, to: string | undefined, format: Format): string {
  if (from && to) return text.between({ from: format.day(from), to: format.day(to) });
  return from ? text.since({ from: format.day(from) }) : text.until({ to: format.day(to ?? '') });
}
