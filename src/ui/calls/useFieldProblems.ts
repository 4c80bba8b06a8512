import { computed, type Ref } from 'vue';
import type { Problem } from '../../bridge/contract.ts';
import { fieldOf, problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';

/**
 * Decides where a form shows a problem: at its field, otherwise below the form, exactly once.
 * @param fields fields that show their own problem
 */
export function useFieldProblems(problem: Readonly<Ref<Problem | null>>, fields: readonly string[]) {
  const shop = useShop();
  const field = computed(() => {
    const about = problem.value ? fieldOf(problem.value) : '';
    return fields.includes(about) ? about : '';
  });
  const sentence = computed(() => (problem.value ? problemMessage(problem.value, shop.format) : ''));
  return {
    problemAt: (name: string): string | undefined => (field.value === name ? sentence.value : undefined),
    otherProblem: computed(() => (field.value === '' ? sentence.value : '')),
  };
}
