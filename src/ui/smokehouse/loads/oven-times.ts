/** Moments of a cook as fields of date and time: `2026-11-24T10:30`, by the shop's clock whatever zone the computer is in. */
import { aheadOf, momentsOf } from '../../../core/values/local-moment.ts';

export function typeMoment(at: string | null, zone: string): string {
  if (at === null) return '';
  const moment = Date.parse(at);
  return new Date(moment + aheadOf(moment, zone)).toISOString().slice(0, 16);
}

/** @param was the moment as stored; it stays, seconds and repeated hour included, where nobody typed over it */
export function typedMoment(typed: string, was: string | null, zone: string): string | null {
  if (typed === typeMoment(was, zone)) return was;
  if (typed === '') return null;
  const [day = '', hours = '', minutes = ''] = typed.split(/[T:]/);
  const [moment] = momentsOf(day, Number(hours) * 3600 + Number(minutes) * 60, zone);
  return moment === undefined ? null : new Date(moment).toISOString();
}
