import { computed, ref, watch, type Ref } from 'vue';
import type { FatChoice, GrinderView } from '../../bridge/contract.ts';
import { toGrams } from '../../core/values/units.ts';
import { massTyped } from '../orders/instructions-form.ts';
import { useShop } from '../stores/shop.ts';
import { percentText } from '../texts/percent.ts';
import type { Want } from '../batch/want-text.ts';

type LoadingSign = GrinderView['waiting'][number];

/** The fields of the plan that an order fills in. */
interface PlanFields {
  /** Typed amounts by animal; empty means all of its trim. */
  amounts: Ref<Record<number, string>>;
  fat: Ref<FatChoice>;
  targetTyped: Ref<string>;
  product: Ref<string>;
  /** Null: ground with a fat and a target. */
  recipe: Ref<Want['recipe']>;
}

/** The recipe says what goes in, not the order. */
const BY_RECIPE: Pick<Want, 'fat' | 'targetFat'> = { fat: 'none', targetFat: null };

/**
 * Selects which order of the chosen animals is ground. The first animal selects its first order; further animals use
 * the same product with their own amounts.
 */
export function useWants(chosen: () => readonly LoadingSign[], fields: PlanFields) {
  const shop = useShop();
  const picked = ref('');
  const wants = computed(() => chosen()[0]?.wants ?? []);

  function pick(want: Want): void {
    picked.value = want.product;
    fields.recipe.value = want.recipe;
    const { fat, targetFat } = want.recipe ? BY_RECIPE : want;
    fields.fat.value = fat;
    fields.targetTyped.value = targetFat === null ? '' : percentText(targetFat);
    fields.product.value = want.product;
    fields.amounts.value = Object.fromEntries(chosen().map((animal) => [animal.id, amountOf(animal)]));
  }

  /** All of its trim if the animal has no order for the product, or no other order. */
  function amountOf({ wants: orders, trimLeftGrams }: LoadingSign): string {
    const want = orders.find(({ product }) => product === picked.value);
    const step = toGrams(shop.step, shop.unit);
    if (!want || orders.length === 1 || want.grams >= trimLeftGrams - step / 2) return '';
    return massTyped(want.grams, shop.unit);
  }

  watch(
    () => chosen().map(({ id }) => id),
    (ids, before) => {
      const first = wants.value[0];
      if (first && ids[0] !== before[0]) pick(first);
      else
        for (const animal of chosen())
          if (!before.includes(animal.id)) fields.amounts.value[animal.id] = amountOf(animal);
    },
  );

  return { wants, picked, pick };
}
