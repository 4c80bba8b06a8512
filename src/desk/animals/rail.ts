import * as v from 'valibot';
import type { HookRow } from '../../book/records/animals.ts';
import { cutOrder } from '../../core/cold/cut-order.ts';
import { daysBetween } from '../../core/values/dates.ts';
import { namesUnit } from '../../core/values/names-unit.ts';
import { hangState } from '../../core/cold/hanging.ts';
import { trimWaiting } from '../grinder/blend-sources.ts';
import { stayOf } from '../coolers/coolers.ts';
import { heldWith } from '../animal/hold-rules.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type { Hook, NextCut, RailView } from '../contract/contract.ts';

/** Animals that hang, the next ones to cut, those ready, and their weights. */
export const get = read(v.object({}), (session): RailView => {
  const { hangingReadyDays: readyDays, hangingLimitDays: limitDays } = session.settings;
  const rows = session.book.animals.inShop();
  const at = (...stages: HookRow['stage'][]) => rows.filter(({ stage }) => stages.includes(stage));
  const hooks: Hook[] = at('hanging', 'cutting', 'packing').map((row) => {
    const days = daysSince(session, row.received_on);
    return {
      id: row.id,
      ticket: row.ticket,
      species: row.species,
      speciesName: session.species.of(row.species).name,
      hunter: row.hunter,
      brought: row.brought,
      stage: row.stage,
      days,
      state: hangState(days, { readyDays, limitDays }),
      hold: row.hold,
      grams: row.grams,
      said: row.typed !== null && namesUnit(row.typed, session.settings.unit) ? row.typed : null,
      promisedOn: row.promised_on,
      notAsked: row.instructed === 0,
      ...stayOf(session, row),
    };
  });
  return {
    hooks,
    next: nextOf(session, at('hanging')),
    ready: at('ready').map((row) => ({
      id: row.id,
      ticket: row.ticket,
      hunter: row.hunter,
      speciesName: session.species.of(row.species).name,
      days: daysSince(session, row.ready_on ?? session.today()),
      hold: row.hold,
      waits: heldWith(session, row.id).length > 0,
    })),
    counts: {
      onRail: at('hanging', 'cutting').length,
      cutting: at('cutting').length,
      packing: at('packing').length,
      ready: at('ready').length,
      onRailGrams: at('hanging', 'cutting').reduce((total, { grams }) => total + (grams ?? 0), 0),
    },
    limitDays,
    nextTicket: session.book.animals.nextTicket(session.season()),
    trimWaiting: trimWaiting(session).length,
  };
});

/** After a positive result an animal is never cut, whatever the shop's setting. */
function nextOf(session: Session, hanging: readonly HookRow[]): NextCut[] {
  const { hangingReadyDays: readyDays, hangingLimitDays: limitDays, cutWhileHeld } = session.settings;
  const today = session.today();
  const animals = hanging
    .filter(({ hold }) => hold !== 'positive')
    .map((row) => ({
      id: row.id,
      days: daysSince(session, row.received_on),
      promisedInDays: row.promised_on === null ? null : daysBetween(today, row.promised_on),
      grams: row.grams,
      held: row.hold !== null,
    }));
  const tickets = new Map(hanging.map(({ id, ticket }) => [id, ticket]));
  return cutOrder(animals, { readyDays, limitDays, cutWhileHeld }).map(({ id, why }) => ({
    id,
    ticket: tickets.get(id) ?? '',
    why,
  }));
}

function daysSince(session: Session, date: string): number {
  return Math.max(0, daysBetween(date, session.today()));
}
