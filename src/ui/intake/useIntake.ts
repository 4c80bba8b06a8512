import { defineStore } from 'pinia';
import { computed, reactive, ref, shallowRef, watch } from 'vue';
import type { HunterCard } from '../../bridge/contract.ts';
import { readingGrams } from '../../core/reading.ts';
import { readingIn } from '../parts/weight-echo.ts';
import { fieldOf, say } from '../say.ts';
import { useShop } from '../stores/shop.ts';
import { useCall } from '../use/useCall.ts';
import { readInstructions } from './instructions-form.ts';
import { emptyIntake, intakeInput, missingIn, type IntakeForm } from './intake-form.ts';

/** The intake in progress. Kept while one looks at another place: half a form is work. */
export const useIntake = defineStore('intake', () => {
  const shop = useShop();
  const takeIn = useCall('intake.takeIn');
  const form = reactive<IntakeForm>(emptyIntake(shop.unit));
  const quoteId = ref<number | null>(null);
  const done = shallowRef<{ id: number; ticket: string; hunter: string; hunterId: number | null } | null>(
    null,
  );
  const tried = ref(false);

  const instructions = computed(() => readInstructions(form.instructions, shop.unit));
  /** Sentences per field: what is missing (after the first try) and what the desk did not accept. */
  const wrong = computed<Record<string, string>>(() => {
    const problem = takeIn.problem.value;
    const fromDesk =
      problem?.kind === 'invalid' || problem?.kind === 'refused'
        ? { [deskField(fieldOf(problem), problem.with?.typed)]: say(problem, shop.format) }
        : {};
    return { ...(tried.value ? missingIn(form) : {}), ...fromDesk };
  });
  /** A weight that is unlikely is asked about, not refused. */
  const ask = computed(() => (takeIn.problem.value?.kind === 'conflict' ? takeIn.problem.value : null));

  /** Which of the two weights a problem is about, by what was typed or by how much it is. */
  function deskField(field: string, typed: string | number | undefined): string {
    if (field !== 'typed') return field;
    return typed === form.hanging.trim() ? 'hanging' : 'received';
  }

  /** Saves. With `sure`, a weight that was asked about stays as it was typed. */
  async function save(sure = false): Promise<boolean> {
    tried.value = true;
    if (Object.keys(missingIn(form)).length > 0 || !instructions.value.value) return false;
    const input = intakeInput(form, instructions.value.value, {
      sure,
      ...(quoteId.value && { quoteId: quoteId.value }),
    });
    const answer = await takeIn.run(input);
    if (!answer.ok) return false;
    done.value = {
      ...answer.value,
      hunter: form.known?.name ?? (form.name || form.find),
      hunterId: form.known?.id ?? null,
    };
    return true;
  }

  /** Takes the weight that was probably meant and saves again. */
  async function accept(likely: string): Promise<boolean> {
    const grams = Number(ask.value?.with?.grams);
    const hanging = readingIn(form.hanging, shop.unit);
    const isHanging = hanging !== null && Math.abs(readingGrams(hanging) - grams) < 0.5;
    form[isHanging ? 'hanging' : 'received'] = likely;
    return save();
  }

  /** An empty form for the next animal; the species stays, the hunter if given. */
  function another(hunter: HunterCard | null = null): void {
    const { species } = form;
    Object.assign(form, emptyIntake(shop.unit), { species, known: hunter, find: hunter?.name ?? '' });
    tried.value = false;
    done.value = null;
    quoteId.value = null;
    takeIn.clear();
  }

  watch(
    () => shop.look?.bookPath,
    () => another(),
  );

  return {
    form,
    quoteId,
    done,
    wrong,
    ask,
    instructions,
    busy: takeIn.busy,
    problem: takeIn.problem,
    save,
    accept,
    another,
    tried,
  };
});
