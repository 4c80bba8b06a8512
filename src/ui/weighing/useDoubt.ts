import { computed, type ComputedRef, type Ref } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import type { Answer } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/doubts.ts';
import { typedWithUnit } from '../texts/typed.ts';

/**
 * The answers to a doubt about a weight, in the order of their buttons: Y saves it as typed, N saves nothing, M saves
 * the suggested correction, R replaces the previous hanging weight.
 */
export function useDoubt(
  ask: Readonly<Ref<Problem | null>>,
  typed: Readonly<Ref<string>>,
  does: {
    /** Saves it as typed. */
    save: () => unknown;
    accept: (likely: string) => unknown;
    /** Returns to the entry without saving. */
    again: () => unknown;
    /** Replaces the current hanging weight. */
    hungAgain?: () => unknown;
  },
): ComputedRef<Answer[]> {
  const shop = useShop();
  const no: Answer = { key: 'N', label: text.noAgain, does: does.again };
  return computed(() => {
    if (!ask.value) return [];
    const { code, with: about } = ask.value;
    const yes = (label: string): Answer => ({ key: 'Y', label, does: does.save });
    if (code === 'weight.same-again' || about?.slip === 'weighed-twice') return [yes(text.second), no];
    if (code === 'weight.hung-again') {
      const { hungAgain } = does;
      const replace =
        hungAgain && about?.count === 1 ? [{ key: 'R', label: text.sameHung, does: hungAgain }] : [];
      return [yes(text.addHung), no, ...replace];
    }
    const keep = yes(text.yesKeep({ typed: typedWithUnit(typed.value, shop.unit) }));
    if (about?.likely === undefined) return [keep, no];
    const meant = String(about.likely);
    const label = text.makeIt({ typed: typedWithUnit(meant, shop.unit) });
    return [{ key: 'M', label, likely: true, does: () => does.accept(meant) }, keep, no];
  });
}
