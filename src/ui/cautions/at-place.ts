import type { Caution, CautionPlace } from '../../bridge/contract.ts';

/** What to tell whoever cooks meat that is raw or only partly cooked. */
const COOKING: ReadonlySet<string> = new Set(['ground-heat', 'trichinella-cooking']);

/**
 * The cautions of a place for a species. Those for a positive result are shown as steps of their own.
 * @param readyToEat heat that is proven was the last step: there is nothing to cook any more
 */
export function cautionsAt(
  all: readonly Caution[],
  place: CautionPlace,
  species: readonly { cautions: readonly string[] }[],
  readyToEat = false,
): Caution[] {
  const named = new Set(species.flatMap(({ cautions }) => cautions));
  return all.filter(
    ({ code, when, shown }) =>
      shown.includes(place) &&
      !(readyToEat && COOKING.has(code)) &&
      (when === 'always' || (when === 'species' && named.has(code))),
  );
}
