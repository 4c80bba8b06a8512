import { computed, type ComputedRef } from 'vue';
import type { ProductKind } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';

/**
 * Names of the offered products, in the order of the shop's list; all kinds by default.
 * @example const names = useProductNames('whole cuts', 'jerky')
 */
export function useProductNames(...kinds: ProductKind[]): ComputedRef<string[]> {
  const shop = useShop();
  return computed(() =>
    (shop.view?.products ?? [])
      .filter(({ kind }) => kinds.length === 0 || kinds.includes(kind))
      .map(({ name }) => name),
  );
}
