import { onScopeDispose, ref, shallowRef } from 'vue';
import { DeskAway, stationRequests } from '../../../bridge/client/station/requests.ts';
import type { Answer, AskOutcome, Problem } from '../../../bridge/contract.ts';
import { beginPairing } from '../kept/pairing.ts';

/** Interval at which the device asks whether it was allowed, ms. */
const ASK_EVERY = 1_500;
const OVER: Problem = { kind: 'missing', code: 'pairing.over' };

/**
 * The device's side of pairing. `number` is what both screens show while the shop decides; `problem` what went wrong: null while
 * nothing did, `away` when the desk gave no answer, `refused` when the shop said no.
 */
export function usePairing() {
  const number = ref('');
  const busy = ref(false);
  const problem = shallowRef<Problem | 'away' | 'refused' | null>(null);
  let stopped = false;
  onScopeDispose(() => (stopped = true));
  const requests = stationRequests({
    fetch: (input, init) => fetch(input, init),
    secret: () => null,
    addresses: () => [location.origin],
  });

  async function ask(code: string): Promise<void> {
    busy.value = true;
    problem.value = null;
    try {
      const answer = await requests.post<Answer<{ request: string; number: string }>>('/pairing', { code });
      if (!answer.ok) {
        problem.value = answer.problem;
        return;
      }
      number.value = answer.value.number;
      await follow(answer.value.request);
    } catch (error) {
      if (!(error instanceof DeskAway)) throw error;
      problem.value = error.problem ?? 'away';
    } finally {
      busy.value = false;
      number.value = '';
    }
  }

  /** Waits for the shop's decision. */
  async function follow(request: string): Promise<void> {
    while (!stopped) {
      const outcome = await outcomeOf(request);
      if (outcome?.state === 'allowed') return begin(outcome);
      if (outcome?.state === 'refused' || outcome?.state === 'over') {
        problem.value = outcome.state === 'over' ? OVER : 'refused';
        return;
      }
      await new Promise((resolve) => setTimeout(resolve, ASK_EVERY));
    }
  }

  /** Null when the desk gave no answer: a wireless that fails for a moment ends nothing. */
  async function outcomeOf(request: string): Promise<AskOutcome | null> {
    try {
      const answer = await requests.post<Answer<AskOutcome>>('/pairing/outcome', { request });
      return answer.ok ? answer.value : null;
    } catch (error) {
      if (error instanceof DeskAway) return null;
      throw error;
    }
  }

  async function begin({ station, secret }: Extract<AskOutcome, { state: 'allowed' }>): Promise<void> {
    const addresses = [location.origin];
    await beginPairing({
      station,
      secret,
      addresses,
      lineage: null,
      signIn: false,
      aheadMs: 0,
      shut: null,
    });
    location.replace('/');
  }

  return { number, busy, problem, ask };
}
