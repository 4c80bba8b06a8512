import { computed, ref, watch, type Ref } from 'vue';
import type { FatChoice, FatLotRow, LeftOutLot } from '../../bridge/contract.ts';

/** Lots past their use-by date that a person allowed in the batch. Reset by a change of fat or animals. */
export function usePastLots(fat: Ref<FatChoice>, ids: Ref<number[]>, onHand: () => readonly FatLotRow[]) {
  const used = ref<LeftOutLot[]>([]);

  /** The lots to plan with: allowed ones, then those within their use-by date; undefined lets the desk choose. */
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
