/** Whether a lot of fat is within its use-by. */
import type { FatLotRecord } from '../../book/records/fat-lots.ts';
import { daysBetween } from '../../core/values/dates.ts';
import type { Session } from '../session/session.ts';
import type { FatKeeps } from '../contract/contract.ts';

/** Days before its use-by from which a lot counts as `soon`. Our choice. */
const SOON_DAYS = 3;

/** `past` from the day after the use-by, `soon` on that day and the three days before; `good` without a date. */
export function keepsOf(session: Pick<Session, 'today'>, { use_by }: Pick<FatLotRecord, 'use_by'>): FatKeeps {
  if (use_by === null) return 'good';
  const days = daysBetween(session.today(), use_by);
  if (days < 0) return 'past';
  return days <= SOON_DAYS ? 'soon' : 'good';
}
