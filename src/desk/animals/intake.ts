import * as v from 'valibot';
import { adjustmentRow } from '../pricing/adjustments.ts';
import { answeredOf, promisedIn } from '../pricing/quote-saved.ts';
import { compareDates, seasonOf } from '../../core/values/dates.ts';
import {
  age,
  brought,
  by,
  id,
  instructions,
  legs,
  listOf,
  needed,
  optionalDate,
  parts,
  sex,
  confirmedOf,
  text,
  typed,
} from '../input/input.ts';
import {
  askFar,
  checkKilled,
  isConfirmed,
  PROMISED_DAYS,
  RECEIVED_DAYS,
  refuseFuture,
} from '../input/day-doubts.ts';
import { addBelonging, newBelonging } from './belongings.ts';
import { takeDraft } from './check-in/drafts.ts';
import { slipCode } from './check-in/slip-code.ts';
import { takeSlip } from './check-in/slips.ts';
import { detailFor } from '../input/detail.ts';
import { addHunter, hunterFields, presentHunterOf } from '../animal/hunters.ts';
import { normalizeOrders } from '../animal/orders.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { weighAnimal } from '../weighing/weigh.ts';

/** At intake an animal is weighed in a few pieces at most; the Table takes the rest. */
const MAX_WEIGHTS = 20;
/** Far more than an animal has. */
const MAX_BELONGINGS = 30;

const weight = v.object({
  stage: v.picklist(['live', 'dressed', 'received', 'hanging'], 'choice.stage'),
  typed,
});

const newAnimal = v.object({
  hunter: v.union([v.object({ id }), v.object(hunterFields)], 'hunter.needed'),
  species: needed(40),
  sex,
  age,
  brought,
  /** Recorded only for an animal that came in its hide. */
  legs: v.optional(legs, 'unknown'),
  parts,
  origin: v.optional(v.picklist(['hunter', 'farm'], 'choice.origin'), 'hunter'),
  licence: text(80),
  tag: text(80),
  killDate: optionalDate,
  killArea: text(200),
  receivedOn: optionalDate,
  promisedOn: optionalDate,
  condition: text(500),
  damage: text(500),
  /** Default: by the shop's setting and the running number. */
  detail: v.optional(v.picklist(['detailed', 'quick'], 'choice.detail')),
  deliverer: v.optional(v.object({ name: text(200), address: text(500) })),
  sample: text(80),
  weights: v.optional(listOf(weight, MAX_WEIGHTS), []),
  instructions: v.optional(instructions),
  /** What else came with it. */
  belongings: v.optional(listOf(newBelonging, MAX_BELONGINGS), []),
  quoteId: v.optional(id),
  /** The hunter's own draft that it comes from. */
  draftId: v.optional(id),
  /** The slip that hung with it, where nothing was typed for it. */
  slip: v.optional(slipCode),
  confirmed: confirmedOf,
  by,
}); // prettier-ignore

/** A confirmation of one of these applies to the first weights. */
const WEIGHT_DOUBTS = ['weight.unlikely', 'weight.over', 'weight.same-again', 'weight.hung-again'] as const;

/**
 * Takes an animal in: hunter, ticket, legal record, first weights, holds and instructions, in one transaction.
 * @throws ProblemError `date.future`, `date.killed-after-received`, `date.promised-before-received` (invalid);
 * `draft.unknown`, `slip.unknown` (missing), `draft.taken`, `slip.used`, `slip.filled` (refused), `draft.dismissed` (conflict);
 * `date.long-ago`, `date.far-ahead`, `date.killed-long-before` and those of weights (conflict: pass `confirmed`)
 */
export const takeIn = write(newAnimal, (session, input) => {
  const receivedOn = input.receivedOn ?? session.today();
  checkDates(session, input, receivedOn);
  const species = session.species.of(input.species);
  for (const { primal } of input.parts)
    if (!species.primals.some(({ code }) => code === primal))
      throw new ProblemError('invalid', 'primal.unknown', { field: 'parts', with: { primal } });

  const now = session.now();
  const hunterId =
    'id' in input.hunter
      ? presentHunterOf(session, input.hunter.id).id
      : addHunter(session, input.hunter, input.by);
  const season = seasonOf(receivedOn, session.settings.seasonStartsMonth);
  const animal = session.book.animals.add(
    {
      season,
      hunter_id: hunterId,
      deliverer_name: input.deliverer?.name ?? '',
      deliverer_address: input.deliverer?.address ?? '',
      species: species.code,
      sex: input.sex,
      age: input.age,
      brought: input.brought,
      legs: input.brought === 'whole' ? input.legs : 'unknown',
      origin: input.origin,
      licence: input.licence || (session.book.hunters.get(hunterId)?.licence ?? ''),
      tag: input.tag,
      kill_date: input.killDate,
      kill_area: input.killArea,
      received_on: receivedOn,
      promised_on: input.promisedOn,
      condition: input.condition,
      damage: input.damage,
      detail: input.detail ?? 'detailed',
      created_at: now,
    },
    input.parts,
  );
  if (input.detail === undefined)
    session.book.animals.setDetail(animal.id, detailFor(animal.number, session.settings.detailEvery));
  if (input.sample) session.book.animals.addHold(animal.id, 'sample', input.sample, now, input.by);
  if (input.instructions) {
    const settled = normalizeOrders(species, input.parts, input.instructions);
    session.book.animals.instruct(animal.id, settled, now, input.by);
  }
  for (const belonging of input.belongings) addBelonging(session, animal, belonging, input.by);
  for (const { stage, typed: weighed } of input.weights)
    weighAnimal(session, {
      animalId: animal.id,
      stage,
      part: 'carcass',
      typed: weighed,
      confirmed: WEIGHT_DOUBTS.some((code) => isConfirmed(input.confirmed, code)),
      by: input.by,
    });
  if (input.quoteId) takeQuote(session, input.quoteId, animal.id, input.by);
  if (input.draftId) takeDraft(session, input.draftId, animal.id, input.by);
  if (input.slip) takeSlip(session, input.slip, { animalId: animal.id, own: false, by: input.by });
  session.book.audit.note({
    record: 'animal', recordId: animal.id, act: 'add', after: { ticket: animal.ticket, receivedOn, tag: input.tag }, at: now, by: input.by,
  }); // prettier-ignore
  return { id: animal.id, ticket: animal.ticket };
});

function checkDates(
  session: Session,
  { killDate, promisedOn, confirmed }: v.InferOutput<typeof newAnimal>,
  received: string,
): void {
  const today = session.today();
  refuseFuture(received, today, 'receivedOn');
  checkKilled(confirmed, killDate, received);
  if (promisedOn && compareDates(promisedOn, received) < 0)
    throw new ProblemError('invalid', 'date.promised-before-received', { field: 'promisedOn' });
  askFar(confirmed, 'receivedOn', received, today, { ago: RECEIVED_DAYS });
  if (promisedOn) askFar(confirmed, 'promisedOn', promisedOn, today, { ahead: PROMISED_DAYS });
}

function takeQuote(session: Session, quoteId: number, animalId: number, initials: string): void {
  const quote = session.book.quotes.get(quoteId);
  if (!quote) throw new ProblemError('missing', 'quote.unknown', { field: 'quoteId' });
  if (session.book.quotes.takenAs(quoteId) !== undefined)
    throw new ProblemError('refused', 'quote.taken', { field: 'quoteId', with: { quote: quote.name } });
  session.book.quotes.take(quoteId, animalId, session.now(), initials);
  const currency = answeredOf(quote).price?.currency ?? session.settings.currency;
  // Adjustments date from the quote, with the initials on it.
  const of = { animal_id: animalId, quote_id: quoteId, currency, at: quote.at, by: quote.by };
  for (const promised of promisedIn(quote.asked)) session.book.adjustments.add(adjustmentRow(promised, of));
}
