import type { Caution, CautionPlace } from '../../bridge/contract.ts';

/** The cautions of a place for a species. Those for a positive result are shown as steps of their own. */
export function cautionsAt(
  all: readonly Caution[],
  place: CautionPlace,
  species: readonly { cautions: readonly string[] }[],
): Caution[] {
  const named = new Set(species.flatMap(({ cautions }) => cautions));
  return all.filter(
    ({ code, when, shown }) =>
      shown.includes(place) && (when === 'always' || (when === 'species' && named.has(code))),
  );
}
