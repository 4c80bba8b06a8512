import { useIntervalFn } from '@vueuse/core';
import { computed, ref, shallowRef } from 'vue';
import type { LedgerBookRow, LedgerBooks } from '../../../bridge/contract.ts';
import { useCall } from '../../calls/useCall.ts';
import { useFieldProblems } from '../../calls/useFieldProblems.ts';
import { useRestored } from '../../calls/useRestored.ts';
import { useLive } from '../../use/useLive.ts';
import { accessOf, formOf, LEDGER_FIELDS } from '../ledger-form.ts';

/** How often it is asked how far a book is that is being made. */
const LOOK_MS = 700;

/** Gets a book back from a ledger: where it is, which books it has, and the one that is being made. */
export function useRebuild() {
  const look = useCall('ledger.books');
  const make = useCall('ledger.rebuild');
  const cancel = useCall('ledger.cancelRebuild');
  const open = useCall('ledger.openRebuilt');
  const { value: now, refresh } = useLive('ledger.rebuilding', () => ({}));
  const opened = useRestored();
  const form = ref(formOf(null));
  const found = shallowRef<LedgerBooks | null>(null);
  const calls = [look, make, cancel, open];
  const problem = computed(() => calls.find((one) => one.problem.value)?.problem.value ?? null);
  const isAtWork = computed(() => now.value?.kind === 'reading' || now.value?.kind === 'checking');
  useIntervalFn(() => {
    if (isAtWork.value) void refresh();
  }, LOOK_MS);
  const access = () => ({ ...accessOf(form.value), password: form.value.password });

  async function list(): Promise<void> {
    found.value = null;
    for (const one of calls) one.clear();
    const answer = await look.run(access());
    if (answer.ok) found.value = answer.value;
  }

  async function get({ shop }: LedgerBookRow): Promise<void> {
    await make.run({ ...access(), shop });
    await refresh();
  }

  /** Back to the list of books. */
  async function leave(): Promise<void> {
    await cancel.run({});
    await refresh();
  }

  /** Resolves to whether the book is open now. */
  async function take(done: string): Promise<boolean> {
    const answer = await open.run({});
    if (answer.ok) await opened(answer.value.setAside, done);
    return answer.ok;
  }

  return {
    form, found, now, list, get, leave, take,
    isLooking: look.busy, isOpening: open.busy,
    ...useFieldProblems(problem, LEDGER_FIELDS),
  }; // prettier-ignore
}
