import { onScopeDispose, ref, watch } from 'vue';
import type { AskName, CallInput, CallOutput } from '../../bridge/contract.ts';
import { call, onStale } from '../link/bridge.ts';
import { spokenHere } from '../link/spoken.ts';
import { SLOW_AFTER_MS } from '../link/slow-calls.ts';
import { useLatest } from './useLatest.ts';

interface LiveOptions<N extends AskName> {
  /** Debounce after the query changed (typing), in milliseconds. */
  waitMs?: number;
  /**
   * For a cheap query that is typed: asked at once, but never twice at a time. What changed while an answer was under way is asked when
   * it is here.
   */
  inTurn?: boolean;
  /** An answer that is already available for a new query; null if there is none. */
  known?: (question: CallInput<N>) => CallOutput<N> | null;
}

/**
 * A query whose answer stays current: repeated when the input or the book changes. `input` may return null while
 * there is nothing to query. Late answers to older queries are dropped; the old value stays until the new one
 * arrives.
 * @example const rail = useLive('rail.get', () => ({})); // rail.value.value?.hooks
 */
export function useLive<N extends AskName>(
  name: N,
  input: () => CallInput<N> | null,
  options: LiveOptions<N> = {},
) {
  const { value, problem, show, ask } = useLatest<CallOutput<N>>();
  /** Where a part above sets one, names are asked for in its language. */
  const spoken = spokenHere();
  const slow = ref(false);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let wait: ReturnType<typeof setTimeout> | undefined;
  let underWay = false;
  let changed = false;

  async function refresh(isNew = false): Promise<void> {
    const question = input();
    const known = question === null ? null : isNew ? (options.known?.(question) ?? null) : null;
    clearTimeout(timer);
    changed = false;
    if (question === null || known !== null) {
      slow.value = false;
      show(known);
      return;
    }
    timer = setTimeout(() => (slow.value = true), SLOW_AFTER_MS);
    underWay = true;
    const isShown = await ask(() => call(name, question, spoken?.value));
    underWay = false;
    if (isShown) {
      clearTimeout(timer);
      slow.value = false;
    }
    if (changed) void refresh(true);
  }

  /** The animal of the query, by its input or, if that has a ticket, by its answer. */
  function animal(): number | undefined {
    const about: { animalId?: number; id?: number } = { ...value.value, ...input() };
    return about.animalId ?? about.id;
  }

  watch(
    () => JSON.stringify(input()),
    () => {
      clearTimeout(wait);
      if (options.waitMs) wait = setTimeout(() => void refresh(true), options.waitMs);
      else if (options.inTurn && underWay && input() !== null) changed = true;
      else void refresh(true);
    },
    { immediate: true },
  );
  const stop = onStale([name], animal, () => void refresh());
  onScopeDispose(() => {
    changed = false;
    clearTimeout(wait);
    clearTimeout(timer);
    stop();
  });

  /** Asks now, also what waits for the typing to pause; resolves once it is answered. */
  function refreshNow(): Promise<void> {
    clearTimeout(wait);
    return refresh();
  }

  return { value, problem, slow, refresh: refreshNow };
}
