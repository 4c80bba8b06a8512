/** A moment that has passed, as a person says it: the day and the time in the shop's zone. */
import * as v from 'valibot';
import { momentsOf } from '../../core/values/local-moment.ts';
import { date } from '../input/input.ts';
import type { Session } from './session.ts';

const timeOfDay = v.pipe(
  v.string('time.unreadable'),
  v.maxLength(5, 'time.unreadable'),
  v.regex(/^([01]?\d|2[0-3]):[0-5]\d$/, 'time.unreadable'),
);
const moment = v.object({ on: date, time: timeOfDay });

/** Part of the input of what may have been done before it is entered; null: now. */
export const earlier = v.optional(v.nullable(moment), null);

/** The moment in UTC; of an hour that a clock change repeats, the first. */
export function momentOf(session: Session, { on, time }: v.InferOutput<typeof moment>): string {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  const [at = 0] = momentsOf(on, (hours * 60 + minutes) * 60, session.settings.zone);
  return new Date(at).toISOString();
}
