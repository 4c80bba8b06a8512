import { onScopeDispose, shallowRef } from 'vue';
import type { Answer, Problem } from '../../bridge/contract.ts';

/**
 * The newest answer of a question that is asked again and again: a late answer to an older question is dropped, and the
 * old value stays on screen until a new one is there.
 */
export function useLatest<T>() {
  const value = shallowRef<T | null>(null);
  const problem = shallowRef<Problem | null>(null);
  let newest = 0;

  /** Shows this answer; what is still under way is dropped. Null: there is nothing to ask. */
  function show(answer: T | null): void {
    newest++;
    problem.value = null;
    value.value = answer;
  }

  /** Shows what `question` answers, unless something newer was asked meanwhile. Resolves to whether it was shown. */
  async function ask(question: () => Promise<Answer<T>>): Promise<boolean> {
    const mine = ++newest;
    const answer = await question();
    if (mine !== newest) return false;
    problem.value = answer.ok ? null : answer.problem;
    if (answer.ok) value.value = answer.value;
    return true;
  }

  onScopeDispose(() => newest++);
  return { value, problem, show, ask };
}
