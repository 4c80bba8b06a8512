import { computed, type ComputedRef } from 'vue';
import type { CallOutput } from '../../bridge/contract.ts';
import { call } from '../link/bridge.ts';
import { useLive } from '../use/useLive.ts';

export type LastOrders = NonNullable<CallOutput<'animals.getLastOrders'>>;

/**
 * The hunter's previous instructions for this species; null if there are none, or while hunter or species is missing.
 * `prefetch` loads them early, so that they appear together with the hunter.
 */
export function useLastOrders(hunterId: () => number | null, species: () => string) {
  const ahead = new Map<string, CallOutput<'animals.getLastOrders'>>();
  const keyOf = (question: { hunterId: number; species: string }): string =>
    `${question.hunterId} ${question.species}`;
  const { value } = useLive(
    'animals.getLastOrders',
    () => {
      const id = hunterId();
      return id && species() ? { hunterId: id, species: species() } : null;
    },
    { known: (question) => ahead.get(keyOf(question)) ?? null },
  );
  const last: ComputedRef<LastOrders | null> = computed(() => (hunterId() ? value.value : null));

  async function prefetch(id: number, code: string): Promise<void> {
    if (!code) return;
    const question = { hunterId: id, species: code };
    const answer = await call('animals.getLastOrders', question);
    ahead.clear();
    if (answer.ok) ahead.set(keyOf(question), answer.value);
  }
  return { last, prefetch };
}
