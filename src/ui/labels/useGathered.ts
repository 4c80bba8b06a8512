import { onScopeDispose, watch } from 'vue';
import type { Answer, AskName } from '../../bridge/contract.ts';
import { onStale } from '../link/bridge.ts';
import { useLatest } from '../use/useLatest.ts';

/** The calls of `gather.ts`. */
const CALLS: readonly AskName[] = ['animals.get', 'grinder.getBatch', 'fat.listLots'];

/**
 * The combined answer of several calls, asked again when the question changes and when the book changes.
 * @param question names what is loaded, e.g. a ticket
 */
export function useGathered<T>(question: () => string, gather: (question: string) => Promise<Answer<T>>) {
  const { value, problem, ask } = useLatest<T>();
  const refresh = (): void => void ask(() => gather(question()));

  watch(question, refresh, { immediate: true });
  onScopeDispose(onStale(CALLS, () => undefined, refresh));
  return { value, problem };
}
