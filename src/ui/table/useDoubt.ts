import { computed, type Ref } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';
import { typedWithUnit } from '../texts/typed.ts';

/** What can be done about a doubt of the desk. */
export interface DoubtAnswer {
  key: string;
  label: string;
  does: () => unknown;
}

/** The answers to a doubt, in the order of their buttons; `y`, `n` and Escape at the entry. */
export function useDoubt(
  ask: Readonly<Ref<Problem | null>>,
  typed: Readonly<Ref<string>>,
  does: {
    keep: (sure: boolean) => Promise<boolean>;
    accept: (likely: string) => Promise<boolean>;
    empty: () => void;
  },
) {
  const shop = useShop();
  return computed<DoubtAnswer[]>(() => {
    if (!ask.value) return [];
    const likely = ask.value.with?.likely;
    if (ask.value.code === 'weight.same-again')
      return [
        { key: 'y', label: 'Yes, a second one', does: () => does.keep(true) },
        { key: 'n', label: 'No, it is the same one', does: does.empty },
      ];
    const keepIt = `keep ${typedWithUnit(typed.value, shop.unit)}`;
    if (likely === undefined)
      return [
        { key: 'y', label: `Yes, ${keepIt}`, does: () => does.keep(true) },
        { key: 'n', label: 'No, weigh again', does: does.empty },
      ];
    const meant = String(likely);
    return [
      { key: 'y', label: `Yes, make it ${typedWithUnit(meant, shop.unit)}`, does: () => does.accept(meant) },
      { key: 'n', label: `No, ${keepIt}`, does: () => does.keep(true) },
      { key: 'Escape', label: 'Weigh again', does: does.empty },
    ];
  });
}
