import { computed, type ComputedRef, type Ref } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import type { Answer } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { doubtText as text } from '../texts/en/animal/weighings.ts';
import { typedWithUnit } from '../texts/typed.ts';

/**
 * The answers to a doubt of the desk about a weight, in the order of their buttons: Y keeps it as typed, N keeps nothing,
 * M takes what was probably meant, R puts it in the place of the hanging weight before.
 */
export function useDoubt(
  ask: Readonly<Ref<Problem | null>>,
  typed: Readonly<Ref<string>>,
  does: {
    /** Keeps it as typed. */
    save: () => unknown;
    accept: (likely: string) => unknown;
    /** Back to the entry; nothing is kept. */
    again: () => unknown;
    /** Puts the weight in the place of the hanging weight that stands. */
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
    const keep = yes(text.yesKeep(typedWithUnit(typed.value, shop.unit)));
    if (about?.likely === undefined) return [keep, no];
    const meant = String(about.likely);
    const label = text.makeIt(typedWithUnit(meant, shop.unit));
    return [{ key: 'M', label, does: () => does.accept(meant) }, keep, no];
  });
}
