import { computed, ref, watch, type Ref } from 'vue';
import type { CallInput, Problem } from '../../bridge/contract.ts';

type Question = Extract<CallInput<'animals.edit'>['confirmed'], readonly unknown[]>[number];

/** Questions that a yes answers. Other conflicts are told, and want the entry mended or looked at again. */
const ASKED: readonly string[] = [
  'date.long-ago', 'date.far-ahead', 'date.killed-long-before', 'prices.never-apply', 'edit.other-season',
  'result.other-sample',
] satisfies Question[]; // prettier-ignore

/**
 * The desk's questions about one entry, each answered by itself: a yes to a far-off date is none to a strange weight.
 * `confirmed()` goes along with the call; `yes()` answers the question that stands, and calls again.
 * @param about what was entered; once it changes, what was answered counts no more
 * @param again what asked, to be called with the yes
 * @example const doubt = useConfirm(save.problem, () => on.value, keep); await save.run({ …, confirmed: doubt.confirmed() });
 */
export function useConfirm<T>(
  problem: Readonly<Ref<Problem | null>>,
  about: () => unknown,
  again: () => Promise<T>,
) {
  const answered = ref<Question[]>([]);
  watch(about, () => (answered.value = []), { deep: true });
  const question = computed(() =>
    problem.value?.kind === 'conflict' && ASKED.includes(problem.value.code) ? problem.value : null,
  );
  return {
    question,
    confirmed: (): Question[] => [...answered.value],
    yes(): Promise<T> {
      if (question.value) answered.value = [...answered.value, question.value.code as Question];
      return again();
    },
  };
}
