import * as v from 'valibot';
import type { HunterFields, HunterRow } from '../../book/records/hunters.ts';
import { by, id, needed, text } from '../input/input.ts';
import { HUNTER_LANGUAGES, isHunterLanguage } from '../../words/hunter-language.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { HunterCard } from '../contract/contract.ts';

export const hunterFields = {
  name: needed(200),
  phone: text(60),
  email: text(200),
  address: text(500),
  licence: text(80),
  /** Of what the hunter gets; '' for the shop's, absent for no change. */
  language: v.optional(v.picklist(['', ...HUNTER_LANGUAGES], 'input.invalid')),
  refusesPooling: v.optional(v.boolean(), false),
};

/** Hunters by part of a name or of a phone number; empty text lists the newest. */
export const find = read(v.object({ text: text(200) }), (session, input) =>
  session.book.hunters.find(input.text).map(hunterCard),
);

/** Adds or changes a hunter; the reason goes into the audit. */
export const save = write(
  v.object({ id: v.optional(id), ...hunterFields, reason: text(300), by }),
  (session, { id: known, reason, by: initials, ...fields }) => {
    const hunterId = known ?? addHunter(session, fields, initials);
    if (known !== undefined) changeHunter(session, known, fields, { reason, by: initials });
    return hunterCard(hunterOf(session, hunterId));
  },
);

export function addHunter(session: Session, fields: HunterFields, by: string): number {
  const hunterId = session.book.hunters.add(fields, session.now());
  // The audit is permanent, so the details stay in the hunter's row, where they can be removed.
  session.book.audit.note({ record: 'hunter', recordId: hunterId, act: 'add', at: session.now(), by });
  return hunterId;
}

/**
 * Changes the fields that are given and differ; the audit keeps the former values. @returns whether anything changed
 * @throws ProblemError `hunter.unknown`, `hunter.gone`
 */
export function changeHunter(
  session: Session,
  hunterId: number,
  wanted: { [Field in keyof HunterFields]?: HunterFields[Field] | undefined },
  stamp: { reason: string; by: string },
): boolean {
  const { name, phone, email, address, licence, language, refusesPooling } = hunterCard(
    hunterOf(session, hunterId),
  );
  const before: HunterFields = { name, phone, email, address, licence, language, refusesPooling };
  const changed = (Object.keys(before) as (keyof HunterFields)[]).filter(
    (field) => wanted[field] !== undefined && wanted[field] !== before[field],
  );
  if (changed.length === 0) return false;
  presentHunterOf(session, hunterId);
  const only = (fields: typeof wanted) => Object.fromEntries(changed.map((field) => [field, fields[field]]));
  session.book.hunters.change(hunterId, { ...before, ...only(wanted) });
  session.book.audit.note({
    record: 'hunter',
    recordId: hunterId,
    act: 'change',
    before: only(before),
    after: only(wanted),
    at: session.now(),
    ...stamp,
  });
  return true;
}

/** @throws ProblemError `hunter.unknown` */
export function hunterOf(session: Session, hunterId: number): HunterRow {
  const found = session.book.hunters.get(hunterId);
  if (!found) throw new ProblemError('missing', 'hunter.unknown', { field: 'hunter' });
  return found;
}

/**
 * A hunter whose details were not removed: a row without details takes no new ones.
 * @throws ProblemError `hunter.unknown`, `hunter.gone`
 */
export function presentHunterOf(session: Session, hunterId: number): HunterRow {
  const hunter = hunterOf(session, hunterId);
  if (session.book.removedDetails.removedAt(hunterId) !== null)
    throw new ProblemError('refused', 'hunter.gone', { field: 'hunter', with: { name: hunter.name } });
  return hunter;
}

export function hunterCard(row: HunterRow): HunterCard {
  const { refuses_pooling, last_ticket, ...rest } = row;
  return {
    id: rest.id,
    name: rest.name,
    phone: rest.phone,
    email: rest.email,
    address: rest.address,
    licence: rest.licence,
    language: isHunterLanguage(rest.language) ? rest.language : '',
    animals: rest.animals,
    refusesPooling: refuses_pooling === 1,
    lastTicket: last_ticket,
  };
}
