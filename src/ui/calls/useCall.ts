import { ref, shallowRef } from 'vue';
import { DUPLICATE_CALL } from '../../bridge/client/duplicate-call.ts';
import { opensABook } from '../../bridge/client/opens-a-book.ts';
import { OTHER_OPENING } from '../../bridge/client/other-opening.ts';
import type { Answer, CallInput, CallName, CallOutput, Problem } from '../../bridge/contract.ts';
import { callFor } from '../link/bridge.ts';
import { useOpening } from '../link/opening.ts';
import { useShop } from '../stores/shop.ts';

/**
 * A call that writes, with the current initials. `run(input)` returns the desk's answer; `problem` is the last
 * refusal until the next run or `clear()`; `busy` is true while it runs. Every run is meant for the opening of the
 * book at setup, so that a later undo cannot reach another book. A store lives longer and resets itself: its calls
 * are meant for the opening that is `shown` when they run. The same input while a run is pending (a double press)
 * is not sent again.
 * @example const keep = useCall('table.weigh'); const done = await keep.run({ … }); if (done.ok) …
 */
export function useCall<N extends CallName>(name: N, lasting?: 'shown') {
  const shop = useShop();
  const opening = useOpening();
  const problem = shallowRef<Problem | null>(null);
  const busy = ref(false);
  const running = new Set<string>();
  const setUpIn = opening.shown;

  async function run(input: CallInput<N>): Promise<Answer<CallOutput<N>>> {
    const signed = shop.by ? { ...input, by: shop.by } : input;
    const key = JSON.stringify(signed);
    if (running.has(key)) return DUPLICATE_CALL;
    running.add(key);
    busy.value = true;
    const target = lasting ? opening.shown : setUpIn;
    const answer = refuseIfClosed(target, await callFor(target, name, signed));
    running.delete(key);
    busy.value = running.size > 0;
    problem.value = answer.ok ? null : answer.problem;
    return answer;
  }

  /** A result in a book that is no longer shown must not be reported or undone in the next. */
  function refuseIfClosed(target: string | null, answer: Answer<CallOutput<N>>): Answer<CallOutput<N>> {
    return target === opening.shown || opensABook(name) || !answer.ok ? answer : OTHER_OPENING;
  }

  const clear = (): void => {
    problem.value = null;
  };

  return { run, problem, busy, clear };
}
