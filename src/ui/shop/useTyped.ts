import { computed, reactive, shallowRef, watch } from 'vue';
import type { ShopSettings } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';

/**
 * Stored settings as the fields of one group. What another group or another window saves comes in; a field that
 * somebody has changed keeps what was typed.
 */
export function useTyped<T extends object>(settings: ShopSettings, type: (stored: ShopSettings) => T) {
  const shop = useShop();
  const before = shallowRef(type(settings));
  const form = reactive(type(settings)) as T;
  const changedFields = computed(() => fieldsThatDiffer<T>(form, before.value as T));

  watch(
    () => shop.settings,
    (stored) => {
      if (!stored) return;
      const fresh = type(stored);
      const typed = new Set<keyof T>(changedFields.value);
      for (const key of keysOf(fresh)) if (!typed.has(key)) form[key] = fresh[key];
      before.value = type(stored);
    },
  );

  return {
    form,
    changed: computed(() => changedFields.value.length > 0),
    /** After saving: the fields as they are stored now. */
    reset(stored: ShopSettings): void {
      Object.assign(form, type(stored));
      before.value = type(stored);
    },
  };
}

const keysOf = <T extends object>(of: T): (keyof T)[] => Object.keys(of) as (keyof T)[];

function fieldsThatDiffer<T extends object>(form: T, stored: T): (keyof T)[] {
  return keysOf(form).filter((key) => JSON.stringify(form[key]) !== JSON.stringify(stored[key]));
}
