import { reactive, watch } from 'vue';
import { useRoute, useRouter } from 'vue-router';
import { useCall } from '../calls/useCall.ts';
import { useUndo } from '../calls/useUndo.ts';
import type { Draft } from '../drafts/draft.ts';
import { toast } from '../parts/index.ts';
import { useLive } from '../use/useLive.ts';
import { text } from '../../words/compiled/window/station/drafts.ts';
import type { useIntake } from './useIntake.ts';

/**
 * Fills Intake in from hunters' own check-ins, and from the slip whose number stands in the address.
 * @param filled called once the form is filled in
 */
export function useCheckIns(intake: ReturnType<typeof useIntake>, filled: () => Promise<void>) {
  const route = useRoute();
  const router = useRouter();
  const dismiss = useCall('drafts.dismiss');
  const restore = useUndo('drafts.restore');
  const { value: slip, problem } = useLive('slips.find', () =>
    typeof route.query.slip === 'string' ? { code: route.query.slip } : null,
  );

  watch(slip, async (found) => {
    if (!found) return;
    if (found.ticket !== null) return void router.replace(`/table/${found.ticket}`);
    // What is half typed stays, and so does what was already filled in.
    await router.replace('/intake');
    if (found.draft) await take(found.draft);
    else {
      intake.takeSlip(found.code);
      await filled();
    }
  });

  async function take(draft: Draft): Promise<void> {
    intake.takeCheckIn(draft);
    await filled();
  }

  async function putAside(reason: string): Promise<void> {
    const draft = intake.checkIn;
    if (!draft || !(await dismiss.run({ id: draft.id, reason })).ok) return;
    intake.another();
    toast(text.aside({ name: draft.name }), () => void restore({ id: draft.id }));
    await filled();
  }

  async function leave(): Promise<void> {
    intake.another();
    await filled();
  }

  return reactive({ take, putAside, leave, problem });
}
