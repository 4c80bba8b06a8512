import type { AnimalPage } from '../../bridge/contract.ts';
import { useCall } from '../calls/useCall.ts';
import { useUndo } from '../calls/useUndo.ts';
import { toast } from '../parts/index.ts';
import { reopenText as text } from '../texts/en-reopen.ts';

/** What was typed when it was disposed of. */
const left = ({ what, how, reason, on }: NonNullable<AnimalPage['disposal']>) => ({ what, how, reason, on });

/**
 * Opens an animal again that has left; the undo lets it leave as it had. Who answers for an unpaid bill and what becomes of
 * belongings is not asked there: such an undo is refused with a sentence, and it is picked up again by hand.
 */
export function useReopen(page: () => AnimalPage) {
  const reopen = useCall('animals.reopen');
  const release = useUndo('pickup.release');
  const dispose = useUndo('animals.dispose');
  const cancel = useUndo('animals.cancel');

  /** The way back to how it was closed; none where several hunters took their parts, which each of them does again. */
  function wayBack({
    id,
    release: given,
    disposal,
    canceled,
    sharers,
  }: AnimalPage): (() => void) | undefined {
    if (canceled) return () => void cancel({ id, reason: canceled.reason });
    if (disposal) return () => void dispose({ id, ...left(disposal) });
    if (given && sharers.length === 0)
      return () => void release({ id, to: given.to, on: given.on, note: '', unpaidBy: '' });
    return undefined;
  }

  /** Resolves to whether it is open again. */
  async function openAgain(reason: string): Promise<boolean> {
    const before = page();
    const answer = await reopen.run({ id: before.id, reason });
    if (answer.ok) toast(text.animalDone(before.ticket), wayBack(before));
    return answer.ok;
  }

  return { openAgain, busy: reopen.busy, problem: reopen.problem, clear: reopen.clear };
}
