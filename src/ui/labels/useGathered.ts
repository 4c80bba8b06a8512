import { onScopeDispose, shallowRef, watch } from 'vue';
import type { Answer, AskName, Problem } from '../../bridge/contract.ts';
import { onStale } from '../link/bridge.ts';

/** What `gather.ts` asks. */
const ASKED: readonly AskName[] = ['animals.get', 'grinder.getBatch', 'fat.listLots'];

/**
 * What several calls give together, gathered anew when the question changes and when the book changed. The newest
 * question wins; what was there stays until the new is.
 * @param question names what is asked for, e.g. a ticket
 */
export function useGathered<T>(question: () => string, gather: (question: string) => Promise<Answer<T>>) {
  const value = shallowRef<T | null>(null);
  const problem = shallowRef<Problem | null>(null);
  let asked = 0;

  async function refresh(): Promise<void> {
    const mine = ++asked;
    const answer = await gather(question());
    if (mine !== asked) return;
    problem.value = answer.ok ? null : answer.problem;
    if (answer.ok) value.value = answer.value;
  }

  watch(question, () => void refresh(), { immediate: true });
  const stop = onStale(
    ASKED,
    () => undefined,
    () => void refresh(),
  );
  onScopeDispose(() => {
    asked++;
    stop();
  });
  return { value, problem };
}
