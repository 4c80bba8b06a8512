/** Notices to a hunter who does not pick up, by the shop's terms. */
import * as v from 'valibot';
import { animalOf } from '../animal/closed.ts';
import { compareDates } from '../../core/values/dates.ts';
import { askFar, DISPOSED_DAYS, refuseFuture } from '../input/day-doubts.ts';
import { by, confirmedOf, id, needed, optionalDate, text } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { NoticeStep, PickupNotice, ShopSettings } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

const STEPS: readonly NoticeStep[] = ['first', 'second', 'last'];

/** Active notices, oldest first. */
export function noticesOf(session: Session, animalId: number): PickupNotice[] {
  return session.book.leaving
    .notices(animalId)
    .map(({ id: noticeId, step, how, sent_on, note, by: initials }) => ({
      id: noticeId,
      step,
      how,
      on: sent_on,
      note,
      by: initials,
    }));
}

/** The notice due after this many days: the first one not given yet, or null. */
export function noticeDue(
  settings: Pick<ShopSettings, 'unclaimedFirstDays' | 'unclaimedSecondDays' | 'unclaimedLastDays'>,
  readyDays: number,
  given: readonly Pick<PickupNotice, 'step'>[],
): NoticeStep | null {
  const after: Readonly<Record<NoticeStep, number>> = {
    first: settings.unclaimedFirstDays,
    second: settings.unclaimedSecondDays,
    last: settings.unclaimedLastDays,
  };
  const next = STEPS.find((step) => !given.some((one) => one.step === step));
  return next && readyDays >= after[next] ? next : null;
}

/**
 * Records a notice given today or earlier; notices are given in order.
 * @throws ProblemError `animal.unknown`, `note.not-ready`, `notice.given`, `notice.order`, `notice.too-many`,
 * `notice.before-ready`, `date.future`; `date.long-ago` (conflict: pass `confirmed`)
 */
export const save = write(
  v.object({
    id,
    step: v.picklist(STEPS, 'choice.notice'),
    how: v.picklist(['letter', 'call', 'message'], 'choice.how'),
    on: optionalDate,
    note: text(300),
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const animal = animalOf(session, input.id);
    if (animal.stage !== 'ready')
      throw new ProblemError('refused', 'note.not-ready', { with: { ticket: animal.ticket } });
    refuseMoreOfAnimal(session, animal, 'notice');
    const given = noticesOf(session, animal.id);
    if (given.some(({ step }) => step === input.step))
      throw new ProblemError('conflict', 'notice.given', {
        with: { ticket: animal.ticket, step: input.step },
      });
    const before = STEPS[STEPS.indexOf(input.step) - 1];
    const earlier = given.find(({ step }) => step === before);
    if (before && !earlier)
      throw new ProblemError('refused', 'notice.order', { with: { ticket: animal.ticket, step: before } });
    const on = input.on ?? session.today();
    refuseFuture(on, session.today(), 'on');
    if (compareDates(on, earlier?.on ?? animal.ready_on ?? animal.received_on) < 0)
      throw new ProblemError('invalid', 'notice.before-ready', { field: 'on' });
    askFar(input.confirmed, 'on', on, session.today(), { ago: DISPOSED_DAYS });
    const { step, how, note, by: initials } = input;
    return {
      id: session.book.leaving.addNotice({
        animalId: animal.id,
        step,
        how,
        on,
        note,
        at: session.now(),
        by: initials,
      }),
    };
  },
);

/** Voids a notice entered by mistake. @throws ProblemError `notice.unknown`, `notice.followed` */
export const voidOne = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const found = session.book.leaving.notice(input.id);
  if (!found) throw new ProblemError('missing', 'notice.unknown');
  const later = STEPS[STEPS.indexOf(found.step) + 1];
  if (later && noticesOf(session, found.animal_id).some(({ step }) => step === later))
    throw new ProblemError('refused', 'notice.followed', { with: { step: later } });
  session.book.leaving.voidNotice({ id: found.id, reason: input.reason, at: session.now(), by: input.by });
  return { id: found.id };
});
