import { computed, ref, watch, type Ref } from 'vue';
import type { CallInput, Problem } from '../../bridge/contract.ts';

type Question = Extract<CallInput<'animals.edit'>['confirmed'], readonly unknown[]>[number];

/** Questions that can be confirmed. Other conflicts are shown, and need a changed entry or a reload. */
const CONFIRMABLE: readonly string[] = [
  'date.long-ago', 'date.far-ahead', 'date.killed-long-before', 'prices.never-apply', 'edit.other-season',
  'result.other-sample', 'release.belongings',
] satisfies Question[]; // prettier-ignore

/**
 * The desk's questions about one entry, each confirmed separately: a yes to an unusual date is none to an unusual
 * weight. `confirmed()` is passed with the call; `yes()` confirms the current question, and repeats the call.
 * @param about the entry; a change of it discards the confirmations
 * @param again the call to repeat
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
    problem.value?.kind === 'conflict' && CONFIRMABLE.includes(problem.value.code) ? problem.value : null,
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
