import { computed, reactive, ref, shallowRef, watch } from 'vue';
import type { CallInput, Instructions } from '../../../../bridge/contract.ts';
import { receivedPrimals } from '../../../../core/species/cutting.ts';
import type { Draft } from '../../../drafts/draft.ts';
import { fromDraft } from '../../../intake/from-draft.ts';
import { emptyIntake, hasOrders, intakeInput, missingIn, partsOf } from '../../../intake/intake-form.ts';
import { readInstructions } from '../../../orders/read-instructions.ts';
import { useShop } from '../../../stores/shop.ts';
import { problemMessage } from '../../../texts/problem-message.ts';
import { text } from '../../../../words/compiled/window/intake.ts';
import { text as draftText } from '../../../../words/compiled/window/station/drafts.ts';
import { text as placeText } from '../../../../words/compiled/window/station/places.ts';
import { useLine } from '../../line.ts';
import { useOpenEntry } from '../../useOpenEntry.ts';
import { outcomeOf } from '../entries.ts';
import { unreadable } from '../weigh/weigh-input.ts';

/**
 * The intake at the counter. It goes to the outbox, so that a hunter never waits for the desk; the form is emptied only once it
 * is in the book, or for the next animal. What the desk doubts is asked above it, with all that was typed still there.
 */
export function useCounter() {
  const shop = useShop();
  const line = useLine();
  const form = reactive(emptyIntake(shop.unit));
  const tried = ref(false);
  const weightProblem = ref('');
  const entry = ref('');
  const hunter = ref('');
  /** The hunter's own check-in that the form was filled in from. */
  const draft = shallowRef<Draft | null>(null);
  /** The blank slip that hangs with the animal. */
  const slip = ref('');
  /** What was put aside last, until something else is done. */
  const aside = shallowRef<Draft | null>(null);
  const outcome = computed(() => outcomeOf(line.entries, entry.value));
  const species = computed(() => shop.species(form.species));
  const orders = computed(() =>
    readInstructions(
      form.instructions,
      shop.unit,
      receivedPrimals(species.value?.primals ?? [], partsOf(form)),
    ),
  );
  const wrong = computed<Record<string, string>>(() => (tried.value ? missingIn(form) : {}));
  /** On its way, or in the book: the form gives way to what is to be written on the tag. */
  const isSent = computed(() => outcome.value?.state === 'waiting' || outcome.value?.state === 'saved');
  const savedId = computed(() =>
    outcome.value?.state === 'saved' ? (outcome.value.answer.id ?? null) : null,
  );
  const made = computed(() => line.entry(entry.value)?.makes ?? '');
  useOpenEntry(() => !isSent.value && (form.find !== '' || form.known !== null || slip.value !== ''));
  watch([() => form.received, () => form.hanging], () => (weightProblem.value = ''));

  /** None if the hunter was not asked. */
  function asked(typed: Instructions): Instructions | null {
    if (form.sameAsLast === 'yes' || hasOrders(form, shop.unit)) return typed;
    return form.standard ? { ...typed, standard: true } : null;
  }

  /** @returns the weight that cannot be read, or null once it went into the outbox or something is missing */
  async function save(): Promise<'received' | 'hanging' | null> {
    tried.value = true;
    for (const stage of ['received', 'hanging'] as const) {
      const problem = form[stage].trim() === '' ? null : unreadable(form[stage], shop.unit);
      if (!problem) continue;
      weightProblem.value = problemMessage(problem, shop.format);
      return stage;
    }
    if (Object.keys(missingIn(form)).length > 0 || !orders.value.value) return null;
    const input = intakeInput(form, asked(orders.value.value), {
      confirmed: [],
      ...(draft.value && { draftId: draft.value.id }),
      ...(slip.value && { slip: slip.value }),
    });
    hunter.value = form.known?.name ?? (form.name || form.find);
    entry.value = await send({ ...input, ...today() });
    return null;
  }

  /** What is sent later came in today. */
  function today(): { receivedOn?: string } {
    const isLater = line.connection.state !== 'connected' && form.receivedOn === '';
    return isLater ? { receivedOn: shop.today } : {};
  }

  function send(input: CallInput<'intake.takeIn'>): Promise<string> {
    const what = [text.takeIn, species.value?.name].filter(Boolean).join(', ');
    const shown = placeText.shown({ ticket: hunter.value, what });
    const isDoubted = outcome.value?.state === 'asks' || outcome.value?.state === 'refused';
    return isDoubted
      ? line.saveAgain(entry.value, input, shown)
      : line.save('intake.takeIn', input, shown, crypto.randomUUID());
  }

  /** An empty form; most animals of a season are of one species. */
  function next(): void {
    Object.assign(form, emptyIntake(shop.unit), { species: form.species });
    tried.value = false;
    entry.value = '';
    draft.value = aside.value = null;
    slip.value = '';
  }

  /** Shows an animal again that waits for its ticket. */
  function backTo(id: string, whose: string): void {
    next();
    entry.value = id;
    hunter.value = whose;
  }

  /** Fills the form in from what a hunter typed. */
  function takeDraft(one: Draft): void {
    next();
    Object.assign(form, fromDraft(one, shop.unit));
    draft.value = one;
  }

  /** An empty form for what is written on a slip. */
  function takeSlip(code: string): void {
    next();
    slip.value = code;
  }

  async function putAside(reason: string): Promise<void> {
    const one = draft.value;
    if (!one) return;
    await line.save('drafts.dismiss', { id: one.id, reason }, shownOf(one, draftText.putAside));
    next();
    aside.value = one;
  }

  async function undoAside(): Promise<void> {
    const one = aside.value;
    if (!one) return;
    aside.value = null;
    await line.save('drafts.restore', { id: one.id }, shownOf(one, draftText.undo));
  }

  const shownOf = ({ name }: Draft, what: string): string => placeText.shown({ ticket: name, what });

  return {
    form, wrong, tried, weightProblem, outcome, isSent, savedId, made, hunter, species, save, next, backTo, draft, slip, aside, takeDraft, takeSlip, putAside, undoAside,
  }; // prettier-ignore
}
