import { computed, ref, watch, type Ref } from 'vue';
import type { Problem } from '../../bridge/contract.ts';

/** Questions that a yes answers. Other conflicts are told, and want the entry mended or looked at again. */
const ASKED = /^(date\.|mend\.other-season$|prices\.never-apply$|result\.other-sample$)/;

/** Whether a problem is a question that a yes answers. */
export const isQuestion = (problem: Problem | null): boolean =>
  problem?.kind === 'conflict' && ASKED.test(problem.code);

/**
 * The desk's questions about one entry, each answered by itself: a yes to a far-off date is none to a strange weight.
 * `sure()` goes along with the call, and `yes()` answers the question that stands and is followed by the call again.
 * @param about what was entered; once it changes, what was answered counts no more
 * @example const doubt = useSure(save.problem, () => on.value); await save.run({ …, sure: doubt.sure() });
 */
export function useSure(problem: Readonly<Ref<Problem | null>>, about: () => unknown) {
  const answered = ref<string[]>([]);
  watch(about, () => (answered.value = []), { deep: true });
  const question = computed(() => (isQuestion(problem.value) ? problem.value : null));
  return {
    question,
    sure: (): string[] => [...answered.value],
    yes(): void {
      if (question.value) answered.value = [...answered.value, question.value.code];
    },
  };
}
