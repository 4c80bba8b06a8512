/** Weights in questions as they were typed, so that the one who typed them knows them again. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { namesUnit } from '../../core/values/names-unit.ts';
import type { Session } from '../session/session.ts';

/**
 * A parameter of a problem with a weight as it was typed; none for a bare number or the shop's own unit, which is
 * written as a mass.
 * @example saidOf(session, '108 lb 2 oz') // { said: '108 lb 2 oz' }
 */
export function saidOf(session: Session, typed: string | null, as = 'said'): Record<string, string> {
  return typed !== null && namesUnit(typed, session.settings.unit) ? { [as]: typed } : {};
}

/** The text of the only weight of a stage; null without one, with several, or with a container. */
export function onlyTyped(session: Session, { id }: AnimalRow, of: 'received' | 'hanging'): string | null {
  const rows = session.book.weighings
    .ofAnimal(id)
    .filter(({ stage, void_at }) => stage === of && void_at === null);
  const [only] = rows;
  return only && rows.length === 1 && only.tare_typed === null ? only.typed : null;
}
