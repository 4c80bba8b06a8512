import { computed, reactive, watch } from 'vue';
import { useRoute } from 'vue-router';
import type { AdjustmentInput, Age, Brought, CallInput, Sex } from '../../bridge/contract.ts';
import { receivedPrimals } from '../../core/species/cutting.ts';
import { usualInstructions } from '../orders/instructions-form.ts';
import { partsOf } from '../intake/intake-form.ts';
import { readInstructions } from '../orders/read-instructions.ts';
import { loadsIn } from '../parts/index.ts';
import { useShop } from '../stores/shop.ts';
import { useLive } from '../use/useLive.ts';

type QuoteStage = 'live' | 'dressed' | 'legs off' | 'hanging' | 'parts';
export type QuoteInput = CallInput<'quotes.calculate'>;

/** Whole animals can be predicted from any weight, pieces only from their own. */
export function stagesOf(brought: Brought): QuoteStage[] {
  return brought === 'whole' || brought === 'skinned'
    ? ['hanging', 'dressed', 'legs off', 'live']
    : ['parts'];
}

/** The input of a quote, and the prediction, which follows every change. */
export function useQuote() {
  const shop = useShop();
  const route = useRoute();
  const form = reactive({
    species: shop.view?.species[0]?.code ?? '',
    sex: 'unknown' as Sex | '',
    age: 'unknown' as Age | '',
    brought: 'skinned' as Brought | '',
    parts: {} as Record<string, number>,
    stage: 'hanging' as QuoteStage | '',
    typed: '',
    instructions: usualInstructions(shop.unit),
    /** Discounts and other changes promised with the quote. */
    adjustments: [] as AdjustmentInput[],
  });
  /** The address may contain input: `/quote?species=elk&weight=340+lb`. */
  watch(
    () => [route.query.species, route.query.weight],
    ([species, weight]) => {
      if (typeof species === 'string' && shop.species(species)) form.species = species;
      if (typeof weight === 'string') form.typed = weight;
    },
    { immediate: true },
  );
  watch(
    () => form.brought,
    (brought) => {
      const possible = stagesOf(brought || 'skinned');
      if (!possible.some((stage) => stage === form.stage)) form.stage = possible[0] ?? 'hanging';
    },
  );

  // Counts of pieces do not apply to another species.
  watch(
    () => form.species,
    () => (form.parts = {}),
  );

  const instructions = computed(() =>
    readInstructions(
      form.instructions,
      shop.unit,
      receivedPrimals(shop.species(form.species)?.primals ?? [], partsOf(form)),
    ),
  );
  const question = computed((): QuoteInput | null => {
    const wanted = instructions.value.value;
    if (!wanted || !loadsIn(form.typed, shop.unit)) return null;
    return {
      species: form.species,
      sex: form.sex || 'unknown',
      age: form.age || 'unknown',
      brought: form.brought || 'skinned',
      parts: partsOf(form),
      stage: form.stage || 'hanging',
      typed: form.typed,
      instructions: wanted,
      adjustments: [...form.adjustments],
    };
  });
  const { value: answer, problem } = useLive('quotes.calculate', () => question.value, { inTurn: true });
  return { form, question, answer, problem };
}
