import { computed, ref, shallowRef, watch, type Ref } from 'vue';
import type { CallInput, Problem } from '../../bridge/contract.ts';

type Question = Extract<CallInput<'animals.edit'>['confirmed'], readonly unknown[]>[number];

/** Problem codes that can be confirmed. Other conflicts need different input or a reload. */
const CONFIRMABLE: readonly string[] = [
  'date.long-ago', 'date.far-ahead', 'date.killed-long-before', 'prices.never-apply', 'edit.other-season',
  'result.other-sample', 'release.belongings',
] satisfies Question[]; // prettier-ignore

/**
 * Answers the desk's questions about one entry. Each is confirmed separately: confirming a date does not confirm a
 * weight. `confirmed()` returns what to send with the call; `yes()` confirms the current question and repeats the
 * call; `no()` dismisses it.
 * @param about the input; changing it drops the confirmations
 * @param again repeats the call after a yes
 * @example const doubt = useConfirm(save.problem, () => on.value, submit);
 *   await save.run({ …, confirmed: doubt.confirmed() });
 */
export function useConfirm<T>(
  problem: Readonly<Ref<Problem | null>>,
  about: () => unknown,
  again: () => Promise<T>,
) {
  const answered = ref<Question[]>([]);
  watch(about, () => (answered.value = []), { deep: true });
  /** The question that was dismissed. */
  const declined = shallowRef<Problem | null>(null);
  const question = computed(() => {
    const isQuestion = problem.value?.kind === 'conflict' && CONFIRMABLE.includes(problem.value.code);
    return isQuestion && problem.value !== declined.value ? problem.value : null;
  });
  return {
    question,
    confirmed: (): Question[] => [...answered.value],
    yes(): Promise<T> {
      if (question.value) answered.value = [...answered.value, question.value.code as Question];
      return again();
    },
    no(): void {
      declined.value = problem.value;
    },
  };
}
