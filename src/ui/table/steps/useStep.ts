import type { AnimalPage } from '../../../bridge/contract.ts';
import { toast } from '../../parts/index.ts';
import { text as words } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/table.ts';
import { useCall } from '../../calls/useCall.ts';
import { useUndo } from '../../calls/useUndo.ts';

export type Going = 'hanging' | 'cutting' | 'packing' | 'ready';

/** Advances an animal to another stage, with undo. */
export function useStep(page: () => Pick<AnimalPage, 'id' | 'ticket' | 'stage'>) {
  const go = useCall('animals.setStage');
  const undo = useUndo('animals.setStage');

  /** @param answer why the packed amount differs from the cut amount, if the desk asked */
  async function step(to: Going, answer = ''): Promise<void> {
    const { id, ticket, stage: from } = page();
    if (!(await go.run({ id, stage: to, answer, confirmed: answer !== '' })).ok) return;
    const back =
      from === 'hanging' || from === 'cutting' || from === 'packing' || from === 'ready' ? from : null;
    toast(
      text.moved({ ticket, from: words.stage[from], to: words.stage[to] }),
      back ? () => void undo({ id, stage: back }) : undefined,
    );
  }
  return { step, busy: go.busy, problem: go.problem };
}
