import { computed, onBeforeUnmount, ref, watch } from 'vue';
import type { CautionPlace, SpeciesCard } from '../../bridge/contract.ts';
import { useSeenCautions } from '../stores/seen-cautions.ts';
import { useShop } from '../stores/shop.ts';
import { cautionsAt } from './at-place.ts';

interface Step {
  readonly place: CautionPlace;
  readonly species: readonly SpeciesCard[];
  readonly readyToEat?: boolean;
}

/**
 * The cautions of a step, and whether they stand open, as they do at the first animal of its kind each day. None is omitted.
 * @param step reactive, as the props of a part are
 */
export function useCautions(step: Step) {
  const shop = useShop();
  const seen = useSeenCautions();
  const here = computed(() =>
    cautionsAt(shop.view?.cautions ?? [], step.place, step.species, step.readyToEat),
  );
  const codes = computed(() => here.value.map(({ code }) => `${step.place} ${code}`));
  const open = ref(false);
  /** By content: the shop's view is replaced whenever anything is saved. */
  watch(
    () => codes.value.join(),
    () => (open.value = codes.value.some((code) => !seen.has(code))),
    { immediate: true },
  );
  watch(open, (now) => !now && seen.add(codes.value));
  onBeforeUnmount(() => seen.add(codes.value));
  return { here, open };
}
