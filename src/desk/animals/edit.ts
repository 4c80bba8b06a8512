/** Edits the record of an animal at any time, with a reason. The audit keeps the earlier values. */
import * as v from 'valibot';
import type { AnimalRow, RecordFields } from '../../book/records/animals.ts';
import { compareDates, daysBetween, seasonOf } from '../../core/values/dates.ts';
import {
  askFar,
  checkKilled,
  isConfirmed,
  PROMISED_DAYS,
  RECEIVED_DAYS,
  refuseFuture,
  type Confirmed,
} from '../input/day-doubts.ts';
import { addHunter, changeHunter, hunterFields, presentHunterOf } from '../animal/hunters.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { age, brought, by, date, id, legs, line, needed, pieces, sex, confirmedOf } from '../input/input.ts';
import { piecesChange } from './edit-pieces.ts';
import { editRelease } from './edit-release.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { animalOf } from '../animal/closed.ts';

const editable = v.strictObject({
  /** The right owner: a known hunter, or a new one. */
  owner: v.optional(v.union([v.object({ id }), v.object(hunterFields)], 'hunter.needed')),
  /** Belongs to the owner, so it changes on all of the owner's tickets. */
  name: v.optional(needed(200)),
  address: v.optional(line(500)),
  phone: v.optional(line(60)),
  species: v.optional(needed(40)),
  sex: v.optional(sex),
  age: v.optional(age),
  brought: v.optional(brought),
  /** The pieces of an animal that was not whole. */
  parts: v.optional(pieces),
  /** For an animal that came in its hide. */
  legs: v.optional(legs),
  origin: v.optional(v.picklist(['hunter', 'farm'], 'choice.origin')),
  licence: v.optional(line(80)),
  tag: v.optional(line(80)),
  killDate: v.optional(v.nullable(date)),
  killArea: v.optional(line(200)),
  receivedOn: v.optional(date),
  promisedOn: v.optional(v.nullable(date)),
  delivererName: v.optional(line(200)),
  delivererAddress: v.optional(line(500)),
  /** Recipient and day; only for an animal that was released. */
  givenTo: v.optional(needed(200)),
  releasedOn: v.optional(date),
});
type Edits = v.InferOutput<typeof editable>;

/**
 * Edits fields of a record, also after the animal left. Name, address and phone are those of the right owner.
 *
 * A received date in another season moves the animal to that season, so that both seasons' numbers stay right. It
 * keeps its ticket if that is valid in the new season; else it gets the next one there. The old ticket still finds
 * it, because it is on the carcass and the labels, and is not reused.
 * @throws ProblemError `animal.unknown`, `hunter.unknown`, `edit.nothing`, `edit.after-left`, `edit.still-here`,
 * `edit.left-before-received`, `edit.pieces`, `edit.pieces-weighed` (refused), `primal.unknown`, `species.unknown`,
 * `date.*`; `edit.other-season` and doubtful dates (conflict: pass `confirmed`)
 */
export const edit = write(
  v.object({ id, changes: editable, reason: needed(300), confirmed: confirmedOf, by }),
  (session, { id: animalId, changes, reason, confirmed, by: initials }) => {
    const animal = animalOf(session, animalId);
    const { owner, name, address, phone, givenTo, releasedOn, ...ofAnimal } = changes;
    const stamp = { reason, by: initials, confirmed };
    const hunterId = owner ? ownerOf(session, owner, initials) : animal.hunter_id;
    const received_on = ofAnimal.receivedOn ?? animal.received_on;
    const done = [
      changeHunter(session, hunterId, { name, address, phone }, { reason, by: initials }),
      editRelease(session, { ...animal, received_on }, { givenTo, releasedOn }, stamp),
      editFields(session, animal, { ...ofAnimal, hunterId }, stamp),
    ];
    if (!done.includes(true))
      throw new ProblemError('refused', 'edit.nothing', { with: { ticket: animal.ticket } });
    return { id: animal.id, ticket: animalOf(session, animal.id).ticket };
  },
);

function ownerOf(session: Session, owner: NonNullable<Edits['owner']>, initials: string): number {
  return 'id' in owner ? presentHunterOf(session, owner.id).id : addHunter(session, owner, initials);
}

function editFields(
  session: Session,
  animal: AnimalRow,
  wanted: Omit<Edits, 'owner' | 'name' | 'address' | 'phone' | 'givenTo' | 'releasedOn'> & {
    hunterId: number;
  },
  { confirmed, ...stamp }: { reason: string; by: string; confirmed: Confirmed },
): boolean {
  const next: RecordFields = {
    hunter_id: wanted.hunterId,
    species: wanted.species ?? animal.species,
    sex: wanted.sex ?? animal.sex,
    age: wanted.age ?? animal.age,
    brought: wanted.brought ?? animal.brought,
    legs: wanted.legs ?? animal.legs,
    origin: wanted.origin ?? animal.origin,
    licence: wanted.licence ?? animal.licence,
    tag: wanted.tag ?? animal.tag,
    kill_date: wanted.killDate === undefined ? animal.kill_date : wanted.killDate,
    kill_area: wanted.killArea ?? animal.kill_area,
    received_on: wanted.receivedOn ?? animal.received_on,
    promised_on: wanted.promisedOn === undefined ? animal.promised_on : wanted.promisedOn,
    deliverer_name: wanted.delivererName ?? animal.deliverer_name,
    deliverer_address: wanted.delivererAddress ?? animal.deliverer_address,
  };
  // Legs are recorded only for an animal that came in its hide.
  if (next.brought !== 'whole') next.legs = animal.brought === 'whole' ? 'unknown' : animal.legs;
  const changed = (Object.keys(next) as (keyof RecordFields)[]).filter((key) => next[key] !== animal[key]);
  const came = piecesChange(session, animal, next, wanted.parts);
  if (changed.length === 0 && !came) return false;
  checkDays(session, animal, next, confirmed);
  const season = seasonAfter(session, animal, next.received_on);
  if (season !== animal.season) askSeason(animal, season, confirmed);
  if (next.species !== animal.species) checkPieces(session, animal, next.species);
  session.book.animals.edit(animal.id, next);
  if (came) session.book.animals.setParts(animal.id, came.parts);
  const at = session.now();
  const moved = season === animal.season ? null : session.book.animals.toSeason(animal, season, at, stamp.by);
  const only = (row: RecordFields) => Object.fromEntries(changed.map((key) => [key, row[key]]));
  const placed = ({ season: of, ticket }: Pick<AnimalRow, 'season' | 'ticket'>) => ({ season: of, ticket });
  session.book.audit.note({
    record: 'animal',
    recordId: animal.id,
    act: 'change',
    before: { ...only(animal), ...came?.before, ...(moved && placed(animal)) },
    after: { ...only(next), ...came?.after, ...(moved && placed(moved)) },
    at,
    ...stamp,
  });
  return true;
}

/** Its season, unless the new date moves it. The month in which seasons start may have changed since intake. */
function seasonAfter(session: Session, animal: AnimalRow, received: string): number {
  const { seasonStartsMonth } = session.settings;
  const season = seasonOf(received, seasonStartsMonth);
  return season === seasonOf(animal.received_on, seasonStartsMonth) ? animal.season : season;
}

function askSeason({ ticket, season: before }: AnimalRow, season: number, confirmed: Confirmed): void {
  if (!isConfirmed(confirmed, 'edit.other-season'))
    throw new ProblemError('conflict', 'edit.other-season', {
      field: 'receivedOn',
      with: { ticket, season, before },
    });
}

function checkDays(
  session: Session,
  animal: AnimalRow,
  { kill_date, received_on, promised_on }: RecordFields,
  confirmed: Confirmed,
): void {
  const moves = received_on !== animal.received_on;
  if (promised_on !== animal.promised_on) checkPromised(session, received_on, promised_on, confirmed);
  if (moves) refuseFuture(received_on, session.today(), 'receivedOn');
  if (moves || kill_date !== animal.kill_date) checkKilled(confirmed, kill_date, received_on);
  if (!moves) return;
  askReceived(session, animal, received_on, confirmed);
  const left =
    session.book.records.releaseOf(animal.id)?.released_on ??
    session.book.records.disposalOf(animal.id)?.disposed_on;
  if (left && compareDates(received_on, left) > 0)
    throw new ProblemError('refused', 'edit.after-left', {
      field: 'receivedOn',
      with: { ticket: animal.ticket },
    });
  if (promised_on && promised_on === animal.promised_on && compareDates(promised_on, received_on) < 0)
    throw new ProblemError('invalid', 'date.promised-before-received', { field: 'receivedOn' });
}

/** Dates far from the day of entry need confirmation, unless they are close to the current date of receipt. */
function askReceived(session: Session, animal: AnimalRow, received: string, confirmed: Confirmed): void {
  if (Math.abs(daysBetween(animal.received_on, received)) <= RECEIVED_DAYS) return;
  const entered = session.dayOf(animal.created_at);
  askFar(confirmed, 'receivedOn', received, entered, { ago: RECEIVED_DAYS, ahead: RECEIVED_DAYS });
}

/** As at intake. */
function checkPromised(
  session: Session,
  received: string,
  promised: string | null,
  confirmed: Confirmed,
): void {
  if (promised === null) return;
  if (compareDates(promised, received) < 0)
    throw new ProblemError('invalid', 'date.promised-before-received', { field: 'promisedOn' });
  askFar(confirmed, 'promisedOn', promised, session.today(), { ahead: PROMISED_DAYS });
}

/** Species differ in their primals: every primal brought, weighed or ordered must exist in the new species. */
function checkPieces(session: Session, animal: AnimalRow, code: string): void {
  const species = session.species.of(code);
  const used = [
    ...session.book.animals.parts(animal.id),
    ...session.book.weighings.ofAnimal(animal.id),
    ...instructionsOf(session, animal.id).primals,
  ].flatMap(({ primal }) => (primal === null ? [] : [primal]));
  const lost = used.find((primal) => !species.primals.some((one) => one.code === primal));
  if (lost !== undefined)
    throw new ProblemError('refused', 'edit.pieces', {
      field: 'species',
      with: { ticket: animal.ticket, name: species.name, primal: lost },
    });
}
