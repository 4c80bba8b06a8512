import { computed, ref } from 'vue';
import { readingGrams } from '../../core/values/reading.ts';
import type { FatChoice, FatLotRow, GrinderView } from '../../bridge/contract.ts';
import { readingIn } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { percentText } from '../texts/percent.ts';
import { useLive } from '../use/useLive.ts';
import { percentTyped } from './percent-typed.ts';
import { usePastLots } from './usePastLots.ts';
import type { Want } from '../batch/want-text.ts';
import { useWants } from './useWants.ts';

/** Debounce while typing, in milliseconds. */
const WAIT_MS = 150;

/** The animals, fat and target of a planned batch, and the plan, which follows every change. */
export function useGrindPlan(waiting: () => GrinderView['waiting'], onHand: () => readonly FatLotRow[]) {
  const shop = useShop();
  const ids = ref<number[]>([]);
  /** Typed amounts by animal; empty or missing means all of its trim. */
  const amounts = ref<Record<number, string>>({});
  const fat = ref<FatChoice>('none');
  const targetTyped = ref('');
  const product = ref('');
  const recipe = ref<Want['recipe']>(null);
  const past = usePastLots(fat, ids, onHand);

  const chosen = computed(() => waiting().filter((animal) => ids.value.includes(animal.id)));
  const target = computed(() => percentTyped(targetTyped.value));
  const targetWrong = computed(() => targetTyped.value.trim() !== '' && target.value === null);
  /** All own fat may go in without a target; bought fat needs one. */
  const targetMissing = computed(
    () => !recipe.value && fat.value !== 'none' && fat.value !== 'own' && targetTyped.value.trim() === '',
  );
  const refusing = computed(() =>
    chosen.value.length > 1 ? chosen.value.filter((animal) => animal.refusesPooling) : [],
  );

  /** Grams of an animal's trim: undefined for all of it, null for invalid text. */
  function gramsOf(id: number, left: number): number | undefined | null {
    const typed = amounts.value[id]?.trim() ?? '';
    if (typed === '') return undefined;
    const reading = readingIn(typed, shop.unit);
    const grams = reading ? readingGrams(reading) : 0;
    return grams > 0 && grams <= left ? grams : null;
  }

  const question = computed(() => {
    const animals = chosen.value.map((animal) => ({
      id: animal.id,
      grams: gramsOf(animal.id, animal.trimLeftGrams),
    }));
    if (animals.length === 0 || targetWrong.value || refusing.value.length > 0) return null;
    if (animals.some(({ grams }) => grams === null) || targetMissing.value) return null;
    const weighed = animals.map(({ id, grams }) =>
      grams === undefined || grams === null ? { id } : { id, grams },
    );
    if (recipe.value) return { animals: weighed, fat: 'none', targetFat: null, recipeId: recipe.value.id };
    return {
      animals: weighed,
      fat: fat.value,
      targetFat: fat.value === 'none' ? null : target.value,
      ...(past.lotIds.value ? { lotIds: past.lotIds.value } : {}),
    };
  });
  const { value: plan, problem } = useLive('grinder.plan', () => question.value, { waitMs: WAIT_MS });

  const { wants, picked, pick } = useWants(() => chosen.value, {
    amounts,
    fat,
    targetTyped,
    product,
    recipe,
  });

  function setTarget(share: number): void {
    targetTyped.value = percentText(share);
  }

  return {
    ids,
    amounts,
    fat,
    targetTyped,
    targetWrong,
    targetMissing,
    target,
    product,
    recipe,
    past,
    chosen,
    refusing,
    gramsOf,
    question,
    plan,
    problem,
    setTarget,
    wants,
    picked,
    pick,
  };
}
