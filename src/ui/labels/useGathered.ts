import { onScopeDispose, watch } from 'vue';
import type { Answer, AskName } from '../../bridge/contract.ts';
import { onStale } from '../link/bridge.ts';
import { useLatest } from '../use/useLatest.ts';

/** The calls that `gather.ts` makes. */
const CALLS: readonly AskName[] = [
  'animals.get',
  'grinder.getBatch',
  'fat.listLots',
  'made.label',
  'made.get',
];

/**
 * The combined answer of several calls, reloaded when the question or the book changes.
 * @param question identifies what is loaded, e.g. a ticket
 */
export function useGathered<T>(question: () => string, gather: (question: string) => Promise<Answer<T>>) {
  const { value, problem, ask } = useLatest<T>();
  const refresh = (): void => void ask(() => gather(question()));

  watch(question, refresh, { immediate: true });
  onScopeDispose(onStale(CALLS, () => undefined, refresh));
  return { value, problem };
}
