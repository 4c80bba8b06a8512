import { computed } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import { useLive } from '../use/useLive.ts';
import { type DrilldownOrder, ORDERS } from '../season-frame/season-query.ts';
import { useSeasonFilter } from '../season-frame/useSeasonFilter.ts';

/** The list of animals behind a mark with its order, stored in the address: `order=bone&rising=yes&least=3&most=4`. */
export function useDrilldown() {
  const route = useRoute();
  const router = useRouter();
  const { filter, clear } = useSeasonFilter();

  const order = computed((): DrilldownOrder => ORDERS.find((one) => one === route.query.order) ?? 'ticket');
  const rising = computed(() => route.query.rising === 'yes');
  const between = computed((): [number, number] | undefined => {
    const ends = [route.query.least, route.query.most].map((text) =>
      typeof text === 'string' && text ? Number(text) : NaN,
    );
    const [low, high] = ends;
    return Number.isFinite(low) && Number.isFinite(high) ? [low as number, high as number] : undefined;
  });
  const { value: view, problem } = useLive('season.drilldown', () => ({
    ...filter.value,
    order: order.value,
    rising: rising.value,
    ...(between.value ? { between: between.value } : {}),
  }));

  function put(some: Record<string, string | undefined>): void {
    void router.push({ path: route.path, query: { ...route.query, ...some } });
  }
  return {
    filter,
    clear,
    order,
    rising,
    between,
    view,
    problem,
    /** Changes the order; the same order again reverses it. The limits of the mark are then dropped. */
    orderBy: (wanted: DrilldownOrder): void =>
      put({
        order: wanted,
        rising: wanted === order.value && !rising.value ? 'yes' : undefined,
        ...(wanted === order.value ? {} : { least: undefined, most: undefined }),
      }),
    showAllValues: (): void => put({ least: undefined, most: undefined }),
  };
}
