import { computed, ref, shallowRef, toRef } from 'vue';
import type { Answer, Problem } from '../../bridge/contract.ts';
import { useScaleEntry, type Taken } from '../scale/useScaleEntry.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';

export interface SavedWeight {
  weighingId: number;
  grams: number;
}

/** A weight that is being typed, or was taken off a scale and is not kept yet. */
export interface WeightDraft {
  typed: string;
  taken: Taken | null;
}

/** A typed weight for the desk; `confirmed` answers its question with yes. */
export interface TypedWeight {
  typed: string;
  source: 'typed' | 'scale' | 'practice';
  confirmed: boolean;
}
export type SendWeight = (weight: TypedWeight) => Promise<Answer<SavedWeight>>;

/**
 * Keeping a weight, as at every scale in the shop: a weight that cannot be right is asked about, a text that is no
 * weight stays in the entry with a sentence, and after keeping the entry is empty for the next.
 * @param send gives it to the desk and tells of it once it is kept
 * @param onSaved runs after keeping, when the entry is empty
 */
export function useSaveWeight(draft: WeightDraft, send: SendWeight, onSaved: () => void) {
  const shop = useShop();
  const typed = toRef(draft, 'typed');
  const scale = useScaleEntry(typed, toRef(draft, 'taken'));
  const underWay = ref(0);
  const problem = shallowRef<Problem | null>(null);
  /** Counts how often the entry was emptied for another weight. */
  const emptied = ref(0);

  const ask = computed(() => (problem.value?.kind === 'conflict' ? problem.value : null));
  /** What is wrong with the text as it stands. */
  const wrong = computed(() =>
    problem.value && !ask.value ? problemMessage(problem.value, shop.format) : '',
  );

  /** Keeps the weight as typed. `confirmed` answers a doubt of the desk with yes. Resolves to whether it was kept. */
  async function save(confirmed = false): Promise<boolean> {
    underWay.value++;
    const answer = await send({ typed: typed.value, source: scale.source.value, confirmed });
    underWay.value--;
    // Enter pressed twice: the first press will be answered.
    if (!answer.ok && answer.problem.code === 'desk.already') return false;
    problem.value = answer.ok ? null : answer.problem;
    if (!answer.ok) return false;
    empty();
    onSaved();
    return true;
  }

  /** Takes what was probably meant, and keeps it. */
  function accept(likely: string): Promise<boolean> {
    typed.value = likely;
    return save();
  }

  function empty(): void {
    typed.value = '';
    problem.value = null;
    emptied.value++;
  }

  return {
    typed,
    scale,
    busy: computed(() => underWay.value > 0),
    problem,
    ask,
    wrong,
    emptied,
    save,
    accept,
    empty,
  };
}
