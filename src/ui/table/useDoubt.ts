import { computed, type Ref } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';
import { doubtText as text } from '../texts/en/weighings.ts';
import { typedWithUnit } from '../texts/typed.ts';

/** What can be done about a doubt of the desk. */
interface DoubtAnswer {
  key: string;
  label: string;
  does: () => unknown;
}

/** The answers to a doubt, in the order of their buttons; `y`, `n` and Escape at the entry. */
export function useDoubt(
  ask: Readonly<Ref<Problem | null>>,
  typed: Readonly<Ref<string>>,
  does: {
    save: (confirmed: boolean) => Promise<boolean>;
    accept: (likely: string) => Promise<boolean>;
    empty: () => void;
    /** Puts the weight in the place of the hanging weight that stands. */
    hungAgain: () => Promise<boolean>;
  },
) {
  const shop = useShop();
  return computed<DoubtAnswer[]>(() => {
    if (!ask.value) return [];
    const likely = ask.value.with?.likely;
    if (ask.value.code === 'weight.same-again' || ask.value.with?.slip === 'weighed-twice')
      return [
        { key: 'y', label: text.second, does: () => does.save(true) },
        { key: 'n', label: text.sameOne, does: does.empty },
      ];
    if (ask.value.code === 'weight.hung-again')
      return ask.value.with?.count === 1
        ? [
            { key: 'y', label: text.sameHung, does: does.hungAgain },
            { key: 'n', label: text.otherHung, does: () => does.save(true) },
            { key: 'Escape', label: text.again, does: does.empty },
          ]
        : [
            { key: 'y', label: text.addHung, does: () => does.save(true) },
            { key: 'n', label: text.noAgain, does: does.empty },
          ];
    const asTyped = typedWithUnit(typed.value, shop.unit);
    if (likely === undefined)
      return [
        { key: 'y', label: text.yesKeep(asTyped), does: () => does.save(true) },
        { key: 'n', label: text.noAgain, does: does.empty },
      ];
    const meant = String(likely);
    return [
      { key: 'y', label: text.makeIt(typedWithUnit(meant, shop.unit)), does: () => does.accept(meant) },
      { key: 'n', label: text.noKeep(asTyped), does: () => does.save(true) },
      { key: 'Escape', label: text.again, does: does.empty },
    ];
  });
}
