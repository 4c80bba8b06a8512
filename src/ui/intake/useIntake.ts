import { defineStore } from 'pinia';
import { computed, ref, shallowRef, toRef } from 'vue';
import type { CallOutput, HunterCard, Instructions, Problem } from '../../bridge/contract.ts';
import { receivedPrimals } from '../../core/species/cutting.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { onOtherOpening } from '../link/opening.ts';
import { loadsIn } from '../parts/weight-echo.ts';
import { fieldOf, problemMessage } from '../texts/problem-message.ts';
import { useDrafts } from '../stores/drafts.ts';
import { useShop } from '../stores/shop.ts';
import { useCall } from '../calls/useCall.ts';
import { useConfirm } from '../calls/useConfirm.ts';
import { fromQuote } from './from-quote.ts';
import { emptyIntake, hasOrders, intakeInput, missingIn, partsOf, type IntakeForm } from './intake-form.ts';
import { readInstructions } from '../orders/read-instructions.ts';

/** Fields that say themselves what is wrong with them. */
const shownFields: ReadonlySet<string> = new Set([
  'hunter', 'name', 'phone', 'address', 'licence', 'species', 'sex', 'brought', 'parts', 'received', 'hanging',
  'tag', 'killDate', 'killArea', 'sample', 'promisedOn', 'receivedOn',
]); // prettier-ignore

/** What the desk asks about weights; one yes is for both of them. */
const WEIGHT_QUESTIONS = ['weight.unlikely', 'weight.over', 'weight.same-again'] as const;

/** The draft of the intake in progress. */
const DRAFT = 'intake';

/** The intake in progress. Kept while one looks at another place: half a form is work. */
export const useIntake = defineStore('intake', () => {
  const shop = useShop();
  const takeIn = useCall('intake.takeIn', 'shown');
  const drafts = useDrafts();
  const draft = drafts.of(DRAFT, () => ({ form: emptyIntake(shop.unit), quoteId: null as number | null }));
  const form: IntakeForm = draft.form;
  const doubt = useConfirm(
    takeIn.problem,
    () => [form.receivedOn, form.killDate, form.promisedOn],
    () => save(),
  );
  const quoteId = toRef(draft, 'quoteId');
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
  /** The field that a refusal is about, or '' where it has no place on the page. */
  const wrongField = computed(() => {
    const refused = takeIn.problem.value;
    if (refused?.kind !== 'invalid' && refused?.kind !== 'refused') return '';
    const field = fieldOf(refused) === 'typed' ? weightField(refused) : fieldOf(refused);
    return shownFields.has(field) ? field : '';
  });
  /** Sentences per field: what is missing (after the first try) and what the desk did not accept. */
  const wrong = computed<Record<string, string>>(() => {
    const refused = takeIn.problem.value;
    const fromDesk =
      wrongField.value && refused ? { [wrongField.value]: problemMessage(refused, shop.format) } : {};
    return { ...(tried.value ? missingIn(form) : {}), ...fromDesk };
  });
  /** A refusal that belongs to no field. */
  const problem = computed(() =>
    wrongField.value || ask.value || doubt.question.value ? null : takeIn.problem.value,
  );
  /** A weight that is unlikely is asked about, not refused. */
  const ask = computed(() =>
    takeIn.problem.value?.kind === 'conflict' && takeIn.problem.value.code.startsWith('weight.')
      ? takeIn.problem.value
      : null,
  );

  /** The weight that is asked about. */
  const askField = computed(() => (ask.value ? weightField(ask.value) : null));

  /** Which of the two weights a problem is about: the one typed so, or the one that weighs so. */
  function weightField({ with: told }: Problem): 'received' | 'hanging' {
    if (told?.typed !== undefined) return told.typed === form.hanging.trim() ? 'hanging' : 'received';
    const hanging = loadsIn(form.hanging, shop.unit);
    const same = hanging !== null && Math.abs(readingGrams(hanging) - Number(told?.grams)) < 0.5;
    return same ? 'hanging' : 'received';
  }

  /** What is written down of the fields: nothing while the hunter was not asked. */
  function orders(typed: Instructions): Instructions | null {
    if (form.sameAsLast === 'yes' || hasOrders(form, shop.unit)) return typed;
    return form.standard ? { ...typed, standard: true } : null;
  }

  /** Saves. With `confirmed`, a weight that was asked about stays as it was typed. */
  async function save(weightsSure = false): Promise<boolean> {
    tried.value = true;
    if (Object.keys(missingIn(form)).length > 0 || !instructions.value.value) return false;
    const input = intakeInput(form, orders(instructions.value.value), {
      confirmed: [...doubt.confirmed(), ...(weightsSure ? WEIGHT_QUESTIONS : [])],
      ...(quoteId.value && { quoteId: quoteId.value }),
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

  /** Takes the weight that was probably meant and saves again. */
  async function accept(likely: string): Promise<boolean> {
    if (ask.value) form[weightField(ask.value)] = likely;
    return save();
  }

  /** An empty form for the next animal; the species stays, the hunter if given. */
  function another(hunter: HunterCard | null = null): void {
    const { species } = form;
    Object.assign(form, emptyIntake(shop.unit), { species, known: hunter, find: hunter?.name ?? '' });
    tried.value = false;
    done.value = null;
    quoteId.value = null;
    drafts.rest(DRAFT);
    takeIn.clear();
  }

  /** A fresh form with what was said for the quote; a form that is being filled in from it already stays. */
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
    tried,
  };
});
