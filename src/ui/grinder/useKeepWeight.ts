import { computed, ref, shallowRef, toRef } from 'vue';
import type { Answer, Problem } from '../../bridge/contract.ts';
import { useScaleEntry, type Taken } from '../scale/useScaleEntry.ts';
import { say } from '../say.ts';
import { useShop } from '../stores/shop.ts';

export interface KeptWeight {
  weighingId: number;
  grams: number;
}

/** A weight that is being typed, or was taken off a scale and is not kept yet. */
export interface WeightDraft {
  typed: string;
  taken: Taken | null;
}

/** A typed weight for the desk; `sure` answers its question with yes. */
export interface TypedWeight {
  typed: string;
  source: 'typed' | 'scale' | 'practice';
  sure: boolean;
}
export type SendWeight = (weight: TypedWeight) => Promise<Answer<KeptWeight>>;

/**
 * Keeping a weight, as at every scale in the shop: a weight that cannot be right is asked about, a text that is no
 * weight stays in the entry with a sentence, and after keeping the entry is empty for the next.
 */
export function useKeepWeight(draft: WeightDraft, send: SendWeight, kept: (weight: KeptWeight) => void) {
  const shop = useShop();
  const typed = toRef(draft, 'typed');
  const scale = useScaleEntry(typed, toRef(draft, 'taken'));
  const busy = ref(false);
  const problem = shallowRef<Problem | null>(null);

  const sentence = computed(() => (problem.value ? say(problem.value, shop.format) : ''));
  const asks = computed(() => problem.value?.kind === 'conflict');
  /** What was probably meant, as a text that can be typed. */
  const likely = computed(() => {
    const meant = problem.value?.with?.likely;
    return asks.value && typeof meant === 'string' && meant !== '' ? meant : null;
  });

  async function keep(sure = false): Promise<void> {
    if (busy.value) return;
    busy.value = true;
    const answer = await send({ typed: typed.value, source: scale.source.value, sure });
    busy.value = false;
    if (answer.ok) {
      typed.value = '';
      problem.value = null;
      kept(answer.value);
    } else problem.value = answer.problem;
  }

  async function makeIt(text: string): Promise<void> {
    typed.value = text;
    await keep();
  }

  function again(): void {
    typed.value = '';
    problem.value = null;
  }

  return { typed, scale, busy, problem, sentence, asks, likely, keep, makeIt, again };
}
