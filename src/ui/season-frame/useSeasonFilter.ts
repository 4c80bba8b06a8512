import { computed } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import type { SeasonFilter } from '../../bridge/contract.ts';
import { drilldownLink, type DrilldownOrder, FIELDS, filterOf, linkTo, queryOf } from './season-query.ts';

/**
 * The filter of a season view, stored in the address: the back button undoes a choice, and other views keep it.
 * `filter` is empty by default (the desk then uses the current season).
 * @example const { filter, linkBehind } = useSeasonFilter();
 * const { value: view } = useLive('season.yields', () => filter.value);
 */
export function useSeasonFilter() {
  const route = useRoute();
  const router = useRouter();
  const filter = computed(() => filterOf(route.query));

  /** Writes a choice to the address, without changing other parts; another season drops the dates. */
  function change(some: SeasonFilter): void {
    const days = 'season' in some ? { from: undefined, to: undefined } : {};
    const next = queryOf({ ...filter.value, ...days, ...some });
    const others = Object.entries(route.query).filter(([key]) => !FIELDS.some((field) => field === key));
    void router.push({ path: route.path, query: { ...Object.fromEntries(others), ...next } });
  }

  /** All animals of the season again. */
  function clear(): void {
    const { season } = filter.value;
    void router.push({ path: route.path, query: queryOf({ season }) });
  }

  return {
    filter,
    change,
    clear,
    /** Link to the animals of a mark: those of the view, filtered further by the mark. */
    linkBehind: (
      more: SeasonFilter = {},
      order?: DrilldownOrder,
      between?: readonly [number, number],
    ): string => drilldownLink({ ...filter.value, ...more }, order, between),
    /** Link to another view of the same animals. */
    linkHere: (path: string): string => linkTo(path, filter.value),
  };
}
