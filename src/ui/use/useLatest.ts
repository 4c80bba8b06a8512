import { onScopeDispose, shallowRef } from 'vue';
import type { Answer, Problem } from '../../bridge/contract.ts';

/**
 * The latest answer of a repeated query: a late answer to an older query is dropped, and the old value stays until
 * a new one arrives.
 */
export function useLatest<T>() {
  const value = shallowRef<T | null>(null);
  const problem = shallowRef<Problem | null>(null);
  let newest = 0;

  /** Shows this answer; pending ones are dropped. Null: no query. */
  function show(answer: T | null): void {
    newest++;
    problem.value = null;
    value.value = answer;
  }

  /** Shows the answer of `question`, unless a newer query started meanwhile. Resolves to whether it was shown. */
  async function ask(question: () => Promise<Answer<T>>): Promise<boolean> {
    const request = ++newest;
    const answer = await question();
    if (request !== newest) return false;
    problem.value = answer.ok ? null : answer.problem;
    if (answer.ok) value.value = answer.value;
    return true;
  }

  onScopeDispose(() => newest++);
  return { value, problem, show, ask };
}
