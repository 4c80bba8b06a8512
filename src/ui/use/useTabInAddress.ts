import { computed, type WritableComputedRef } from 'vue';
import { useRoute, useRouter } from 'vue-router';

/**
 * The selected tab of a page, as part of the address, so that other pages can link to it.
 * @param names all tabs; the first is shown where the address names none
 */
export function useTabInAddress<Tab extends string>(
  names: readonly [Tab, ...Tab[]],
): WritableComputedRef<Tab> {
  const route = useRoute();
  const router = useRouter();
  return computed<Tab>({
    get: () => names.find((name) => name === route.query.tab) ?? names[0],
    set: (tab) => void router.replace({ query: tab === names[0] ? {} : { tab } }),
  });
}
