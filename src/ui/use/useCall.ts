import { ref, shallowRef } from 'vue';
import { ALREADY } from '../../bridge/client/already.ts';
import type { Answer, CallInput, CallName, CallOutput, Problem } from '../../bridge/contract.ts';
import { call } from '../bridge.ts';
import { useShop } from '../stores/shop.ts';

/**
 * A call that writes, signed with the initials of who works.
 * `run(input)` gives the desk's answer; `problem` keeps the last refusal until the next run or `clear()`;
 * `busy` is true while it runs. The same input again meanwhile (a button pressed twice) is not sent a second time.
 * @example const keep = useCall('table.weigh'); const done = await keep.run({ … }); if (done.ok) …
 */
export function useCall<N extends CallName>(name: N) {
  const shop = useShop();
  const problem = shallowRef<Problem | null>(null);
  const busy = ref(false);
  const running = new Set<string>();

  async function run(input: CallInput<N>): Promise<Answer<CallOutput<N>>> {
    const signed = shop.by ? { ...input, by: shop.by } : input;
    const key = JSON.stringify(signed);
    if (running.has(key)) return ALREADY;
    running.add(key);
    busy.value = true;
    const answer = await call(name, signed);
    running.delete(key);
    busy.value = running.size > 0;
    problem.value = answer.ok ? null : answer.problem;
    return answer;
  }

  const clear = (): void => {
    problem.value = null;
  };

  return { run, problem, busy, clear };
}
