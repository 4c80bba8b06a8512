import type { Ref } from 'vue';
import type { AnimalPage, NonePart, PartNone, Problem } from '../../bridge/contract.ts';
import { toast } from '../parts/index.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';
import { text } from '../../words/compiled/window/table.ts';
import { text as weighingText } from '../../words/compiled/window/weighings.ts';
import { useCall } from '../calls/useCall.ts';
import { useUndo } from '../calls/useUndo.ts';

/** States that the animal has none of a part, and voids that statement; both toasts have an undo. */
export function usePartNone(page: Ref<Pick<AnimalPage, 'id' | 'ticket'>>) {
  const shop = useShop();
  const none = useCall('table.stateNone');
  const voidNone = useUndo('table.voidNone');

  /** Resolves to the problem, or null if it was saved. */
  async function state(part: NonePart): Promise<Problem | null> {
    const { id: animalId, ticket } = page.value;
    const answer = await none.run({ animalId, part });
    if (!answer.ok) return answer.problem;
    const { noneId } = answer.value;
    toast(
      text.noneSaved({ part, ticket }),
      () => void voidNone({ noneId, reason: weighingText.reasons.undone }),
    );
    return null;
  }

  /** Voids a statement in the list of weights. */
  async function voidStated({ id, part }: PartNone): Promise<void> {
    const { ticket } = page.value;
    if (!(await voidNone({ noneId: id, reason: weighingText.reasons.statedByMistake }))) return;
    toast(text.noneVoided({ part, ticket }), () => void again(part));
  }

  async function again(part: NonePart): Promise<void> {
    const problem = await state(part);
    if (problem) toast(problemMessage(problem, shop.format));
  }

  return { state, voidStated, busy: none.busy };
}
