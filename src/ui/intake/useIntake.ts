import { defineStore } from 'pinia';
import { computed, ref, shallowRef, toRef } from 'vue';
import type { CallOutput, HunterCard, Instructions, Problem } from '../../bridge/contract.ts';
import { receivedPrimals } from '../../core/species/cutting.ts';
import { readingGrams } from '../../core/values/reading.ts';
import type { Draft } from '../drafts/draft.ts';
import { onOtherOpening } from '../link/opening.ts';
import { loadsIn } from '../parts/weight-echo.ts';
import { fieldOf, problemMessage } from '../texts/problem-message.ts';
import { useDrafts } from '../stores/drafts.ts';
import { useShop } from '../stores/shop.ts';
import { useCall } from '../calls/useCall.ts';
import { useConfirm } from '../calls/useConfirm.ts';
import { fromDraft } from './from-draft.ts';
import { fromQuote } from './from-quote.ts';
import { emptyIntake, hasOrders, intakeInput, missingIn, partsOf, type IntakeForm } from './intake-form.ts';
import { readInstructions } from '../orders/read-instructions.ts';

/** Fields that show their own problem. */
const shownFields: ReadonlySet<string> = new Set([
  'hunter', 'name', 'phone', 'address', 'licence', 'species', 'sex', 'brought', 'parts', 'received', 'hanging',
  'tag', 'killDate', 'killArea', 'sample', 'promisedOn', 'receivedOn',
]); // prettier-ignore

/** The desk's questions about weights; one confirmation covers both weights. */
const WEIGHT_QUESTIONS = ['weight.unlikely', 'weight.over', 'weight.same-again'] as const;

/** The draft of the current intake. */
const DRAFT = 'intake';

/** The current intake. The draft is kept while another page is open. */
export const useIntake = defineStore('intake', () => {
  const shop = useShop();
  const takeIn = useCall('intake.takeIn', 'shown');
  const drafts = useDrafts();
  const draft = drafts.of(DRAFT, () => ({
    form: emptyIntake(shop.unit),
    quoteId: null as number | null,
    checkIn: null as Draft | null,
    slip: '',
  }));
  const form: IntakeForm = draft.form;
  const doubt = useConfirm(
    takeIn.problem,
    () => [form.receivedOn, form.killDate, form.promisedOn],
    () => save(),
  );
  const quoteId = toRef(draft, 'quoteId');
  /** The hunter's own check-in that the form was filled in from. */
  const checkIn = toRef(draft, 'checkIn');
  /** The blank slip that hangs with the animal. */
  const slip = toRef(draft, 'slip');
  const done = shallowRef<{ id: number; ticket: string; hunter: string; hunterId: number | null } | null>(
    null,
  );
  const tried = ref(false);

  const species = computed(() => shop.species(form.species));
  const instructions = computed(() =>
    readInstructions(
      form.instructions,
      shop.unit,
      receivedPrimals(species.value?.primals ?? [], partsOf(form)),
    ),
  );
  /** The field that a refusal concerns; empty if it has none on the page. */
  const wrongField = computed(() => {
    const refused = takeIn.problem.value;
    if (refused?.kind !== 'invalid' && refused?.kind !== 'refused') return '';
    const field = fieldOf(refused) === 'typed' ? weightField(refused) : fieldOf(refused);
    return shownFields.has(field) ? field : '';
  });
  /** Messages by field: missing input after the first attempt, and refusals of the desk. */
  const wrong = computed<Record<string, string>>(() => {
    const refused = takeIn.problem.value;
    const fromDesk =
      wrongField.value && refused ? { [wrongField.value]: problemMessage(refused, shop.format) } : {};
    return { ...(tried.value ? missingIn(form) : {}), ...fromDesk };
  });
  /** A refusal that concerns no field. */
  const problem = computed(() =>
    wrongField.value || ask.value || doubt.question.value ? null : takeIn.problem.value,
  );
  /** An implausible weight needs a confirmation. */
  const ask = computed(() =>
    takeIn.problem.value?.kind === 'conflict' && takeIn.problem.value.code.startsWith('weight.')
      ? takeIn.problem.value
      : null,
  );

  /** The weight to confirm. */
  const askField = computed(() => (ask.value ? weightField(ask.value) : null));

  /** Which of the two weights a problem concerns, by its text or its grams. */
  function weightField({ with: parameters }: Problem): 'received' | 'hanging' {
    if (parameters?.typed !== undefined)
      return parameters.typed === form.hanging.trim() ? 'hanging' : 'received';
    const hanging = loadsIn(form.hanging, shop.unit);
    const same = hanging !== null && Math.abs(readingGrams(hanging) - Number(parameters?.grams)) < 0.5;
    return same ? 'hanging' : 'received';
  }

  /** The instructions to save: none if the hunter was not asked. */
  function orders(typed: Instructions): Instructions | null {
    if (form.sameAsLast === 'yes' || hasOrders(form, shop.unit)) return typed;
    return form.standard ? { ...typed, standard: true } : null;
  }

  /** Saves the intake. With `confirmed`, an implausible weight is saved as typed. */
  async function save(weightsSure = false): Promise<boolean> {
    tried.value = true;
    if (Object.keys(missingIn(form)).length > 0 || !instructions.value.value) return false;
    const input = intakeInput(form, orders(instructions.value.value), {
      confirmed: [...doubt.confirmed(), ...(weightsSure ? WEIGHT_QUESTIONS : [])],
      ...(quoteId.value && { quoteId: quoteId.value }),
      ...(checkIn.value && { draftId: checkIn.value.id }),
      ...(slip.value && { slip: slip.value }),
    });
    const answer = await takeIn.run(input);
    if (!answer.ok) return false;
    drafts.rest(DRAFT);
    done.value = {
      ...answer.value,
      hunter: form.known?.name ?? (form.name || form.find),
      hunterId: form.known?.id ?? null,
    };
    return true;
  }

  /** Saves the suggested correction of the weight. */
  async function accept(likely: string): Promise<boolean> {
    if (ask.value) form[weightField(ask.value)] = likely;
    return save();
  }

  /** An empty form for the next animal with the same species, and the same hunter if given. */
  function another(hunter: HunterCard | null = null): void {
    const { species } = form;
    Object.assign(form, emptyIntake(shop.unit), { species, known: hunter, find: hunter?.name ?? '' });
    tried.value = false;
    done.value = null;
    quoteId.value = null;
    checkIn.value = null;
    slip.value = '';
    drafts.rest(DRAFT);
    takeIn.clear();
  }

  /** A new form filled in from what a hunter typed. */
  function takeCheckIn(one: Draft): void {
    another();
    Object.assign(form, fromDraft(one, shop.unit));
    checkIn.value = one;
  }

  /** A new form for what is written on a slip. */
  function takeSlip(code: string): void {
    another();
    slip.value = code;
  }

  /** A new form filled in from a quote; a form that is already being filled in from it is kept. */
  function takeQuote(quote: CallOutput<'quotes.get'>, hunter: HunterCard | null): void {
    if (quoteId.value === quote.id) return;
    another(hunter);
    if (!hunter) form.find = quote.hunter;
    Object.assign(form, fromQuote(quote.asked, shop.unit));
    quoteId.value = quote.id;
  }

  onOtherOpening(() => {
    form.species = '';
    another();
    drafts.adopt(DRAFT, draft);
  });

  return {
    form,
    quoteId,
    checkIn,
    slip,
    done,
    wrong,
    ask,
    dayQuestion: doubt.question,
    dayIsRight: doubt.yes,
    dayIsWrong: doubt.no,
    askField,
    leaveAsk: takeIn.clear,
    instructions,
    busy: takeIn.busy,
    problem,
    save,
    accept,
    another,
    takeQuote,
    takeCheckIn,
    takeSlip,
    tried,
  };
});
