import { computed, watch } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import type { CallInput, CallOutput, OwnerMeasure, OwnerSplit } from '../../bridge/contract.ts';
import { call } from '../link/bridge.ts';
import { useLatest } from '../use/useLatest.ts';

export const MEASURES: readonly OwnerMeasure[] = ['takeHome', 'fat', 'money', 'backlog', 'quotes'];
export const SPLITS: readonly OwnerSplit[] = ['shop', 'season', 'species'];

/** What an owner asks, stored in the address: `measure=fat&by=season&species=elk`, and `shop=3` for the rows behind a group. */
export function useShops() {
  const route = useRoute();
  const router = useRouter();
  const one = (key: string): string => {
    const text = route.query[key];
    return typeof text === 'string' ? text : '';
  };
  return {
    asked: computed(() => ({
      measure: MEASURES.find((measure) => measure === one('measure')) ?? 'takeHome',
      split: SPLITS.find((split) => split === one('by')) ?? 'shop',
      ...(/^\d{4}$/.test(one('season')) ? { season: Number(one('season')) } : {}),
      ...(one('species') ? { species: one('species') } : {}),
    })),
    /** The group whose rows are shown. */
    behind: computed(() =>
      /^\d+$/.test(one('shop'))
        ? {
            shop: Number(one('shop')),
            ...(/^\d{4}$/.test(one('of')) ? { season: Number(one('of')) } : {}),
            ...(one('kind') ? { species: one('kind') } : {}),
            ...(one('currency') ? { currency: one('currency') } : {}),
          }
        : null,
    ),
    put: (some: Record<string, string | undefined>): void =>
      void router.push({ path: route.path, query: { ...route.query, ...some } }),
    linkTo: (some: Record<string, string | undefined>) => ({
      path: route.path,
      query: { ...route.query, ...some },
    }),
  };
}

/** An answer of the ledger: nothing of the last one is shown while the next is waited for, or when there is none. */
export function useLedgerAnswer<N extends 'ledger.getShops' | 'ledger.getShopRows'>(
  name: N,
  question: () => CallInput<N>,
) {
  const { value, problem, show, ask } = useLatest<CallOutput<N>>();
  function again(): void {
    show(null);
    void ask(() => call(name, question()));
  }
  watch(() => JSON.stringify(question()), again, { immediate: true });
  return { value, problem, again };
}
