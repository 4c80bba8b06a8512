import { ref, shallowRef } from 'vue';
import type { Answer, CallInput, CallName, CallOutput, Problem } from '../../bridge/contract.ts';
import { call } from '../bridge.ts';
import { useShop } from '../stores/shop.ts';

/** Shorter waits are not worth telling: a spinner that flickers reads as trouble. */
export const SLOW_AFTER_MS = 320;

/**
 * A call that writes, signed with the initials of who works.
 * `run(input)` gives the desk's answer; `problem` keeps the last refusal until the next run or `clear()`;
 * `busy` is true while it runs, `slow` once it is worth showing.
 * @example const keep = useCall('table.weigh'); const done = await keep.run({ … }); if (done.ok) …
 */
export function useCall<N extends CallName>(name: N) {
  const shop = useShop();
  const problem = shallowRef<Problem | null>(null);
  const busy = ref(false);
  const slow = ref(false);

  async function run(input: CallInput<N>): Promise<Answer<CallOutput<N>>> {
    busy.value = true;
    const timer = setTimeout(() => (slow.value = true), SLOW_AFTER_MS);
    const answer = await call(name, shop.by ? { ...input, by: shop.by } : input);
    clearTimeout(timer);
    busy.value = false;
    slow.value = false;
    problem.value = answer.ok ? null : answer.problem;
    return answer;
  }

  const clear = (): void => {
    problem.value = null;
  };

  return { run, problem, busy, slow, clear };
}
