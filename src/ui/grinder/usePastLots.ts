import { computed, ref, watch, type Ref } from 'vue';
import type { FatChoice, FatLotRow, LeftOutLot } from '../../bridge/contract.ts';

/**
 * Lots past their use-by that somebody wants in the batch all the same. Another kind of fat, or other animals, and it
 * is asked anew.
 */
export function usePastLots(fat: Ref<FatChoice>, ids: Ref<number[]>, onHand: () => readonly FatLotRow[]) {
  const used = ref<LeftOutLot[]>([]);

  /** The lots to plan with: those wanted all the same, then those within their use-by; undefined where the desk picks. */
  const lotIds = computed(() => {
    if (used.value.length === 0) return undefined;
    const good = onHand().filter(
      ({ source, ticket, keeps }) => source === fat.value && ticket === null && keeps !== 'past',
    );
    return [...used.value.map(({ lotId }) => lotId), ...good.map(({ id }) => id)];
  });

  function use(lot: LeftOutLot): void {
    used.value = [...used.value, lot];
  }
  function leave(lot: LeftOutLot): void {
    used.value = used.value.filter(({ lotId }) => lotId !== lot.lotId);
  }
  watch([fat, () => ids.value.join()], () => (used.value = []));

  return { used, lotIds, use, leave };
}
