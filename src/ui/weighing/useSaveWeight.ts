import { computed, ref, shallowRef, toRef } from 'vue';
import type { Answer, Problem } from '../../bridge/contract.ts';
import { useScaleEntry, type Taken } from '../scale/useScaleEntry.ts';
import { problemMessage } from '../texts/problem-message.ts';
import { useShop } from '../stores/shop.ts';

export interface SavedWeight {
  weighingId: number;
  grams: number;
}

/** A typed or scale weight that is not saved yet. */
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
 * Saves a weight, in the same way at every scale of the shop: an implausible weight needs a confirmation, an
 * invalid text stays in the entry with a sentence, and after a save the entry is empty.
 * @param send passes it to the desk and reports the save
 * @param onSaved runs after a save, when the entry is empty
 */
export function useSaveWeight(draft: WeightDraft, send: SendWeight, onSaved: () => void) {
  const shop = useShop();
  const typed = toRef(draft, 'typed');
  const scale = useScaleEntry(typed, toRef(draft, 'taken'));
  const underWay = ref(0);
  const problem = shallowRef<Problem | null>(null);
  /** Counts how often the entry was cleared for the next weight. */
  const emptied = ref(0);

  /** A doubt that a yes answers; no yes brings back a weight that was voided meanwhile. */
  const ask = computed(() =>
    problem.value?.kind === 'conflict' && problem.value.code !== 'weighing.voided' ? problem.value : null,
  );
  /** The problem of the current text. */
  const wrong = computed(() =>
    problem.value && !ask.value ? problemMessage(problem.value, shop.format) : '',
  );

  /** Saves the weight as typed. `confirmed` answers a doubt of the desk with yes. Resolves to whether it was saved. */
  async function save(confirmed = false): Promise<boolean> {
    underWay.value++;
    const answer = await send({ typed: typed.value, source: scale.source.value, confirmed });
    underWay.value--;
    // Enter was pressed twice; the first press is pending.
    if (!answer.ok && answer.problem.code === 'desk.already') return false;
    problem.value = answer.ok ? null : answer.problem;
    if (!answer.ok) return false;
    empty();
    onSaved();
    return true;
  }

  /** Saves the suggested correction. */
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
