import type { AnimalPage } from '../../../bridge/contract.ts';
import { useCall } from '../../calls/useCall.ts';
import { useUndo } from '../../calls/useUndo.ts';
import { toast } from '../../parts/index.ts';
import { text } from '../../../words/compiled/window/reopen.ts';

/** The input of the disposal. */
const left = ({ what, how, reason, on }: NonNullable<AnimalPage['disposal']>) => ({ what, how, reason, on });

/**
 * Reopens an animal that has left; undo closes it as before. Undo asks neither about an unpaid bill nor about
 * belongings: it is then refused with a message, and the animal is handed over again by hand.
 */
export function useReopen(page: () => AnimalPage) {
  const reopen = useCall('animals.reopen');
  const release = useUndo('pickup.release');
  const dispose = useUndo('animals.dispose');
  const cancel = useUndo('animals.cancel');

  /** The undo of reopening; null if several hunters picked up shares, which are then recorded again one by one. */
  function wayBack({
    id,
    release: pickup,
    disposal,
    canceled,
    sharers,
  }: AnimalPage): (() => void) | undefined {
    if (canceled) return () => void cancel({ id, reason: canceled.reason });
    if (disposal) return () => void dispose({ id, ...left(disposal) });
    if (pickup && sharers.length === 0)
      return () => void release({ id, to: pickup.to, on: pickup.on, note: '', unpaidBy: '' });
    return undefined;
  }

  /** Resolves to whether it was reopened. */
  async function openAgain(reason: string): Promise<boolean> {
    const before = page();
    const answer = await reopen.run({ id: before.id, reason });
    if (answer.ok) toast(text.animalDone({ ticket: before.ticket }), wayBack(before));
    return answer.ok;
  }

  return { openAgain, busy: reopen.busy, problem: reopen.problem, clear: reopen.clear };
}
