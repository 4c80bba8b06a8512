/** One cooler's temperatures by day, for an inspector: readings, initials, time above the limit, and gaps. */
import * as v from 'valibot';
import { addDays, daysBetween } from '../../core/values/dates.ts';
import { summariseCoolerLog, warmIntervals } from '../../core/cold/cooler-log.ts';
import { date, id } from '../input/input.ts';
import { momentsOf } from '../../core/values/local-moment.ts';
import { read } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { CoolerRecord } from '../contract/contract.ts';

/** Longer times without a reading are gaps: a night, as on the Rail. Our choice. */
const GAP_MS = 16 * 60 * 60_000;
const MAX_DAYS = 400;

/** @throws ProblemError `cooler.unknown`, `cooler.record-days` (invalid) */
export const getRecord = read(
  v.object({ coolerId: id, from: date, to: date }),
  (session, input): CoolerRecord => {
    const cooler = session.book.coolers.named(input.coolerId);
    if (!cooler) throw new ProblemError('missing', 'cooler.unknown', { field: 'coolerId' });
    const days = daysBetween(input.from, input.to) + 1;
    if (days < 1 || days > MAX_DAYS)
      throw new ProblemError('invalid', 'cooler.record-days', { field: 'to', with: { most: MAX_DAYS } });
    const { coolerLimitC: limitC, zone } = session.settings;
    const midnight = (day: string): number => momentsOf(day, 0, zone)[0] ?? 0;
    const [start, end] = [midnight(input.from), midnight(addDays(input.to, 1))];
    const rows = session.book.coolers.between(
      input.coolerId,
      new Date(start).toISOString(),
      new Date(end).toISOString(),
    );
    const readings = rows.map(({ tenths_c, ...row }) => ({
      ...row,
      c: tenths_c / 10,
      ms: Date.parse(row.at),
    }));
    const judged = readings.map(({ at, c }) => ({ at, tempC: c }));
    const spans = warmIntervals(judged, limitC);
    const until = Math.min(end, Math.max(start, Date.parse(session.now())));
    const moments = [start, ...readings.map(({ ms }) => ms), until];
    return {
      cooler: cooler.name,
      from: input.from,
      to: input.to,
      limitC,
      readings: readings.length,
      minutesAbove: summariseCoolerLog(judged, limitC).minutesAbove,
      days: Array.from({ length: days }, (_, n) => {
        const day = addDays(input.from, n);
        const [dawn, dusk] = [midnight(day), midnight(addDays(day, 1))];
        const ofDay = readings.filter(({ ms }) => ms >= dawn && ms < dusk).map(({ c }) => c);
        const warm = spans.map(({ from, to }) => Math.max(0, Math.min(to, dusk) - Math.max(from, dawn)));
        return {
          day,
          readings: ofDay.length,
          lowestC: ofDay.length ? ofDay.reduce((a, b) => Math.min(a, b)) : null,
          highestC: ofDay.length ? ofDay.reduce((a, b) => Math.max(a, b)) : null,
          minutesAbove: warm.reduce((sum, ms) => sum + ms, 0) / 60_000,
        };
      }),
      gaps: moments.slice(1).flatMap((to, i) => {
        const from = moments[i] ?? to;
        return to - from > GAP_MS
          ? [
              {
                from: new Date(from).toISOString(),
                to: new Date(to).toISOString(),
                minutes: (to - from) / 60_000,
              },
            ]
          : [];
      }),
      byHand: readings.flatMap(({ at, c, typed, by, log_id }) =>
        log_id === null ? [{ at, c, typed, by }] : [],
      ),
      files: session.book.coolerLogs
        .of(input.coolerId)
        .map((log) => ({
          file: log.file,
          at: log.at,
          by: log.by,
          readings: readings.filter(({ log_id }) => log_id === log.id).length,
        }))
        .filter((log) => log.readings > 0),
      voided: session.book.coolers
        .voidedTemperatures(input.coolerId, new Date(start).toISOString(), new Date(end).toISOString())
        .map(({ at, tenths_c, typed, reason, by }) => ({ at, c: tenths_c / 10, typed, reason, by })),
    };
  },
);
