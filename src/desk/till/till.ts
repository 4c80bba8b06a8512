import * as v from 'valibot';
import { boundedMinor } from '../../core/values/money-sums.ts';
import { parseMoney } from '../../core/values/money.ts';
import type { TillCount, TillSum, TillView } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, date, id, listOf, needed, optionalDate, text } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { settingSchemas } from '../session/settings.ts';
import { openDrawer } from './drawer.ts';
import { tillSums } from './till-sums.ts';
import { tillView } from './till-view.ts';

/** More kinds of coins and notes than any currency has. */
const MAX_DENOMINATIONS = 30;
const MAX_PIECES = 100_000;
/** Maximum denomination in minor units: more than the largest note of any currency. */
const MAX_DENOMINATION = 100_000_000;

const wholeFrom = (least: number, most: number) =>
  v.pipe(
    v.number('count.range'),
    v.integer('count.range'),
    v.minValue(least, 'count.range'),
    v.maxValue(most, 'count.range'),
  );
/** A total as typed, or the number of pieces per denomination in minor units. */
const counted = v.object({
  total: v.optional(needed(30)),
  pieces: v.optional(
    listOf(v.strictTuple([wholeFrom(1, MAX_DENOMINATION), wholeFrom(0, MAX_PIECES)]), MAX_DENOMINATIONS),
  ),
});
/** More methods of payment than a day has. */
const MAX_METHODS = 200;
const MAX_ENTRIES = 1_000_000;
/** Entries by method, including cash, as the window shows them. */
const seen = listOf(
  v.object({
    method: needed(40),
    count: wholeFrom(0, MAX_ENTRIES),
    totalMinor: wholeFrom(-Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER),
  }),
  MAX_METHODS,
);
const currency = v.optional(settingSchemas.currency);
const initials = v.pipe(by, v.minLength(1, 'till.initials'));

/** The till of a day; defaults to today and the shop's currency. @throws ProblemError `till.future` */
export const get = read(v.object({ day: optionalDate, currency }), (session, input): TillView =>
  tillView(session, dayOf(session, input.day), input.currency ?? session.settings.currency),
);

/**
 * Saves the float: the cash in the drawer at the start of the day.
 * @throws ValidationError `money.*`; ProblemError `till.future`, `till.closed`, `till.float` (below zero)
 */
export const setFloat = write(
  v.object({ day: optionalDate, currency, typed: text(30), by }),
  (session, input) => {
    const day = dayOf(session, input.day);
    const of = input.currency ?? session.settings.currency;
    refuseClosed(session, day, of);
    const amountMinor = parseMoney(input.typed, of);
    if (amountMinor < 0) throw new ProblemError('invalid', 'till.float', { field: 'typed' });
    session.book.till.addFloat({
      day,
      currency: of,
      typed: input.typed,
      amountMinor,
      at: session.now(),
      by: input.by,
    });
    return { amountMinor };
  },
);

/**
 * Closes a day: freezes its entries with the counted cash, under the next number. `expectedMinor` and `seen` are what
 * the window shows, so that an entry made meanwhile is not closed unseen.
 * @throws ValidationError `money.*`; ProblemError `till.future`, `till.closed`, `till.note` (over or short without a
 * note), `till.count` (below zero), `till.count-missing`; `till.changed`, `till.changed-method` (conflict)
 */
export const close = write(
  v.object({
    day: date,
    currency: settingSchemas.currency,
    expectedMinor: wholeFrom(-Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER),
    seen,
    counted,
    note: text(300),
    by: initials,
  }),
  (session, input) => {
    const { till } = session.book;
    const day = dayOf(session, input.day);
    refuseClosed(session, day, input.currency);
    const { rows, entries, floatMinor, cashMinor, expectedMinor } = openDrawer(session, day, input.currency);
    if (expectedMinor !== input.expectedMinor)
      throw new ProblemError('conflict', 'till.changed', {
        with: { expectedMinor, seenMinor: input.expectedMinor, currency: input.currency },
      });
    refuseUnseen(tillSums(entries), input.seen, input.currency);
    const count = countOf(input.counted);
    const countedMinor = minorOf(count, input.currency);
    const overMinor = countedMinor - expectedMinor;
    if (overMinor !== 0 && input.note === '')
      throw new ProblemError('invalid', 'till.note', {
        field: 'note',
        with: { overMinor, currency: input.currency },
      });
    return till.close(
      {
        day,
        currency: input.currency,
        float_minor: floatMinor,
        cash_minor: cashMinor,
        expected_minor: expectedMinor,
        typed: JSON.stringify(count),
        counted_minor: countedMinor,
        over_minor: overMinor,
        note: input.note,
        at: session.now(),
        by: input.by,
      },
      rows,
    );
  },
);

/**
 * Voids a closing, which reopens the day. It stays readable and keeps its number. @throws ProblemError
 * `till.unknown`, `till.voided`
 */
const voidClosing = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const closing = session.book.till.get(input.id);
  if (!closing) throw new ProblemError('missing', 'till.unknown', { field: 'id' });
  if (closing.voided === 1)
    throw new ProblemError('conflict', 'till.voided', { with: { number: closing.number } });
  session.book.till.void(closing.id, input.reason, session.now(), input.by);
  session.book.audit.note({
    record: 'till_close',
    recordId: closing.id,
    act: 'void',
    before: { number: closing.number, day: closing.day, overMinor: closing.over_minor },
    reason: input.reason,
    at: session.now(),
    by: input.by,
  });
  return { id: closing.id };
});
export { voidClosing as void };

function dayOf(session: Session, requested: string | null): string {
  const today = session.today();
  const day = requested ?? today;
  if (day > today) throw new ProblemError('invalid', 'till.future', { field: 'day', with: { day } });
  return day;
}

function refuseClosed(session: Session, day: string, of: string): void {
  const closing = session.book.till.closing(day, of);
  if (closing) throw new ProblemError('refused', 'till.closed', { with: { day, number: closing.number } });
}

/**
 * Refuses to close if entries changed. @throws ProblemError `till.changed-method` (conflict) for the first method
 * that differs from `seen`
 */
function refuseUnseen(sums: readonly TillSum[], displayed: v.InferOutput<typeof seen>, of: string): void {
  const now = sums.filter(({ by: person }) => person === null);
  for (const method of new Set([...now, ...displayed].map((one) => one.method))) {
    const [current, displayedSum] = [now, displayed].map((rows) => rows.find((one) => one.method === method));
    if (current?.count === displayedSum?.count && current?.totalMinor === displayedSum?.totalMinor) continue;
    throw new ProblemError('conflict', 'till.changed-method', {
      with: {
        method,
        totalMinor: current?.totalMinor ?? 0,
        seenMinor: displayedSum?.totalMinor ?? 0,
        currency: of,
      },
    });
  }
}

function countOf({ total, pieces }: v.InferOutput<typeof counted>): TillCount {
  if (total !== undefined && pieces === undefined) return { total };
  if (pieces !== undefined && total === undefined) return { pieces };
  throw new ProblemError('invalid', 'till.count-missing', { field: 'counted' });
}

function minorOf(count: TillCount, of: string): number {
  const minor =
    'total' in count
      ? parseMoney(count.total, of)
      : count.pieces.reduce((sum, [denomination, pieces]) => sum + denomination * pieces, 0);
  if (minor < 0) throw new ProblemError('invalid', 'till.count', { field: 'total' });
  return boundedMinor(minor, 'total');
}
