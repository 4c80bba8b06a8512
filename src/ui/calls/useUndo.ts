import type { CallInput, CallName } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useCall } from './useCall.ts';

/**
 * A call without a form beside it: the undo of a toast, or a button in a row. A refusal is shown as a toast.
 * Resolves to whether it succeeded.
 * @example const undo = useUndo('belongings.void'); toast(text.added, () => void undo({ id, reason: words.undone }));
 */
export function useUndo<N extends CallName>(name: N): (input: CallInput<N>) => Promise<boolean> {
  const shop = useShop();
  const call = useCall(name);
  return async (input) => {
    const answer = await call.run(input);
    if (!answer.ok) toast(problemMessage(answer.problem, shop.format));
    return answer.ok;
  };
}
