import * as v from 'valibot';
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
  sureOf,
  text,
  typed,
} from '../input/input.ts';
import {
  askFar,
  checkKilled,
  isSure,
  PROMISED_DAYS,
  RECEIVED_DAYS,
  refuseFuture,
} from '../input/day-doubts.ts';
import { detailFor } from '../input/detail.ts';
import { addHunter, hunterFields, presentHunterOf } from '../animal/hunters.ts';
import { settleOrders } from '../animal/orders.ts';
import { write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import { weighAnimal } from '../weighing/weigh.ts';

/** On its way in an animal is weighed in a few pieces at most; the Table takes the rest. */
const MOST_WEIGHTS = 20;

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
  /** Kept of an animal that came in its hide; of others nobody asks. */
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
  /** Left out: as the shop does, by its setting and the running number. */
  detail: v.optional(v.picklist(['detailed', 'quick'], 'choice.detail')),
  deliverer: v.optional(v.object({ name: text(200), address: text(500) })),
  sample: text(80),
  weights: v.optional(listOf(weight, MOST_WEIGHTS), []),
  instructions: v.optional(instructions),
  quoteId: v.optional(id),
  sure: sureOf,
  by,
}); // prettier-ignore

/** A yes to one of these is for the first weights. */
const WEIGHT_DOUBTS = ['weight.unlikely', 'weight.over', 'weight.same-again', 'weight.hung-again'] as const;

/**
 * Takes an animal in: hunter, ticket, legal record, first weights, holds and instructions, all or nothing.
 * @throws Trouble `date.future`, `date.killed-after-received`, `date.promised-before-received` (invalid);
 * `date.long-ago`, `date.far-ahead`, `date.killed-long-before` and those of weights (conflict: pass `sure`)
 */
export const takeIn = write(newAnimal, (room, input) => {
  const receivedOn = input.receivedOn ?? room.today();
  checkDates(room, input, receivedOn);
  const species = room.species.of(input.species);
  for (const { primal } of input.parts)
    if (!species.primals.some(({ code }) => code === primal))
      throw new Trouble('invalid', 'primal.unknown', { field: 'parts', with: { primal } });

  const now = room.now();
  const hunterId =
    'id' in input.hunter
      ? presentHunterOf(room, input.hunter.id).id
      : addHunter(room, input.hunter, input.by);
  const season = seasonOf(receivedOn, room.settings.seasonStartsMonth);
  const animal = room.book.animals.add(
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
      licence: input.licence || (room.book.hunters.get(hunterId)?.licence ?? ''),
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
    room.book.animals.setDetail(animal.id, detailFor(animal.number, room.settings.detailEvery));
  if (input.sample) room.book.animals.addHold(animal.id, 'sample', input.sample, now, input.by);
  if (input.instructions) {
    const settled = settleOrders(species, input.parts, input.instructions);
    room.book.animals.instruct(animal.id, settled, now, input.by);
  }
  for (const { stage, typed: weighed } of input.weights)
    weighAnimal(room, {
      animalId: animal.id,
      stage,
      part: 'carcass',
      typed: weighed,
      sure: WEIGHT_DOUBTS.some((code) => isSure(input.sure, code)),
      by: input.by,
    });
  if (input.quoteId) takeQuote(room, input.quoteId, animal.id, input.by);
  room.book.audit.note({
    record: 'animal', recordId: animal.id, act: 'add', after: { ticket: animal.ticket, receivedOn, tag: input.tag }, at: now, by: input.by,
  }); // prettier-ignore
  return { id: animal.id, ticket: animal.ticket };
});

function checkDates(
  room: DeskRoom,
  { killDate, promisedOn, sure }: v.InferOutput<typeof newAnimal>,
  received: string,
): void {
  const today = room.today();
  refuseFuture(received, today, 'receivedOn');
  checkKilled(sure, killDate, received);
  if (promisedOn && compareDates(promisedOn, received) < 0)
    throw new Trouble('invalid', 'date.promised-before-received', { field: 'promisedOn' });
  askFar(sure, 'receivedOn', received, today, { ago: RECEIVED_DAYS });
  if (promisedOn) askFar(sure, 'promisedOn', promisedOn, today, { ahead: PROMISED_DAYS });
}

function takeQuote(room: DeskRoom, quoteId: number, animalId: number, initials: string): void {
  const quote = room.book.quotes.get(quoteId);
  if (!quote) throw new Trouble('missing', 'quote.unknown', { field: 'quoteId' });
  if (room.book.quotes.takenAs(quoteId) !== undefined)
    throw new Trouble('refused', 'quote.taken', { field: 'quoteId', with: { quote: quote.name } });
  room.book.quotes.take(quoteId, animalId, room.now(), initials);
}
