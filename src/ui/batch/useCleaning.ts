import { computed, reactive } from 'vue';
import { toast } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text } from '../../words/compiled/window/cleaning.ts';
import { useCall } from '../calls/useCall.ts';
import { useFieldProblems } from '../calls/useFieldProblems.ts';
import { useUndo } from '../calls/useUndo.ts';

/** What is recorded of a cleaning, and recording it: now, or at an earlier time; after one batch if it is named. */
export function useCleaning(batchId: () => number | null) {
  const shop = useShop();
  const clean = useCall('grinder.saveCleaning');
  const undo = useUndo('grinder.voidCleaning');
  const { problemAt, otherProblem } = useFieldProblems(clean.problem, ['how', 'on', 'time', 'earlier']);
  const form = reactive({ how: text.howUsual as string, earlier: false, on: shop.today, time: '' });

  async function record(): Promise<void> {
    const { how, earlier, on, time } = form;
    const answer = await clean.run({
      batchId: batchId(),
      how,
      earlier: earlier ? { on, time: time.trim() } : null,
    });
    if (!answer.ok) return;
    const { id } = answer.value;
    form.earlier = false;
    toast(text.saved, () => void undo({ cleaningId: id, reason: words.undone }));
  }

  return {
    form,
    record,
    busy: clean.busy,
    problemAt,
    otherProblem,
    refused: computed(() => clean.problem.value !== null),
  };
}
