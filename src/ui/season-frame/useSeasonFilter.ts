import { computed } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import type { SeasonFilter } from '../../bridge/contract.ts';
import { drilldownLink, type DrilldownOrder, FIELDS, filterOf, linkTo, queryOf } from './season-query.ts';

/**
 * The animals that a season view is about, kept in the address: the back button undoes a choice, another view takes it
 * along. `filter` is empty where nothing was chosen (the desk then takes the running season).
 * @example const { filter, linkBehind } = useSeasonFilter();
 * const { value: look } = useLive('season.yields', () => filter.value);
 */
export function useSeasonFilter() {
  const route = useRoute();
  const router = useRouter();
  const filter = computed(() => filterOf(route.query));

  /** Puts a choice into the address and leaves there what is no part of the filter; another season drops the days. */
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
    /** The animals of a mark: those of the view, narrowed by what the mark stands for. */
    linkBehind: (
      more: SeasonFilter = {},
      order?: DrilldownOrder,
      between?: readonly [number, number],
    ): string => drilldownLink({ ...filter.value, ...more }, order, between),
    /** Another view of the same animals. */
    linkHere: (path: string): string => linkTo(path, filter.value),
  };
}
