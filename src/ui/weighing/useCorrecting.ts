import { computed, shallowRef, watch, type Ref } from 'vue';
import type { AnimalPage, WeighingRow } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/table.ts';
import { typedWithUnit } from '../texts/typed.ts';

/**
 * The saved weight that an entry corrects. If somebody else corrects it meanwhile, theirs is the one that is corrected; if it is
 * voided, it stays what the entry is about, so that what was typed never becomes another weight: the desk refuses it.
 */
export function useCorrecting(
  page: Ref<AnimalPage>,
  entry: { correcting: number | null; typed: string; tare: string },
) {
  const rowOf = (id: number | null): WeighingRow | null =>
    page.value.weighings.find((row) => row.id === id) ?? null;
  const correcting = computed(() => rowOf(entry.correcting));
  /** The voided weight, and the one in its place, if any. */
  const found = shallowRef<{ former: WeighingRow; now: WeighingRow | null } | null>(null);

  watch(
    () => correcting.value?.voided && correcting.value,
    (former) => {
      if (!former) return;
      const now = page.value.weighings.find(({ corrects }) => corrects === former.id) ?? null;
      found.value = { former, now };
      if (now) entry.correcting = now.id;
      else if (entry.typed === '') Object.assign(entry, { correcting: null, tare: '' });
    },
    { immediate: true },
  );
  /** What became of it meanwhile; '' if nothing did. */
  const meanwhile = computed(() => {
    const { former, now } = found.value ?? {};
    if (!former || entry.correcting !== (now ?? former).id) return '';
    const by = former.voided?.by ?? '';
    return now
      ? text.correctedMeanwhile({ by, typed: typedWithUnit(now.typed, now.unit) })
      : text.voidedMeanwhile({ by });
  });
  return { correcting, meanwhile };
}
