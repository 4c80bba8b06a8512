import { computed, ref, shallowRef, watch, type Ref } from 'vue';
import type { CallInput, Problem } from '../../bridge/contract.ts';

type Question = Extract<CallInput<'animals.edit'>['confirmed'], readonly unknown[]>[number];

/** Questions that can be confirmed. Other conflicts are shown, and need a changed entry or a reload. */
const CONFIRMABLE: readonly string[] = [
  'date.long-ago', 'date.far-ahead', 'date.killed-long-before', 'prices.never-apply', 'edit.other-season',
  'result.other-sample', 'release.belongings',
] satisfies Question[]; // prettier-ignore

/**
 * The desk's questions about one entry, each answered by itself: a yes to a far-off date is none to a strange weight.
 * `confirmed()` goes along with the call; `yes()` answers the question that stands, and calls again; `no()` takes it away.
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
  /** A question that was answered with no: the entry is changed instead. */
  const declined = shallowRef<Problem | null>(null);
  const question = computed(() => {
    const asked = problem.value?.kind === 'conflict' && CONFIRMABLE.includes(problem.value.code);
    return asked && problem.value !== declined.value ? problem.value : null;
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
