/** Hours of work on one animal, each charged by an hourly line of the price book. */
import * as v from 'valibot';
import { pricedLines } from '../pricing/prices.ts';
import { by, id, needed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { WorkTimes } from '../contract/contract.ts';
import { animalOf } from '../animal/closed.ts';
import { refuseBilled } from './billed.ts';

/** A hundred hours; more in one entry is mistyped. */
const MAX_MINUTES = 6000;

/** Hourly lines in force, and recorded work, oldest first. */
export const getHours = read(v.object({ animalId: id }), (session, { animalId }): WorkTimes => {
  const animal = animalOf(session, animalId);
  const lines = pricedLines(session, 'hour');
  return {
    lines,
    rows: session.book.workTimes.ofAnimal(animal.id).map((row) => ({
      id: row.id,
      lineCode: row.line_code,
      label: lines.find(({ code }) => code === row.line_code)?.label ?? row.line_code,
      minutes: row.minutes,
      at: row.at,
      by: row.by,
      voided:
        row.void_at === null
          ? null
          : { reason: row.void_reason ?? '', by: row.void_by ?? '', at: row.void_at },
    })),
  };
});

/**
 * Records work on an hourly line of the prices in force.
 * @throws ProblemError `hours.line` (no such line), `bill.stands`, `animal.closed`, `hours.too-many` (refused)
 */
export const addHours = write(
  v.object({
    animalId: id,
    lineCode: needed(40),
    minutes: v.pipe(
      v.number('hours.range'),
      v.integer('hours.range'),
      v.minValue(1, 'hours.range'),
      v.maxValue(MAX_MINUTES, 'hours.range'),
    ),
    by,
  }),
  (session, { animalId, lineCode, minutes, by: initials }) => {
    const animal = animalOf(session, animalId);
    refuseBilled(session, animal);
    if (!pricedLines(session, 'hour').some(({ code }) => code === lineCode))
      throw new ProblemError('invalid', 'hours.line', { field: 'lineCode', with: { line: lineCode } });
    refuseMoreOfAnimal(session, animal, 'workTime');
    const at = session.now();
    return { id: session.book.workTimes.add({ animalId, lineCode, minutes, at, by: initials }) };
  },
);

/** Voids recorded work with a reason. @throws ProblemError `hours.unknown`, `hours.voided`, `bill.stands`, `animal.closed` */
export const voidHours = write(v.object({ workTimeId: id, reason: needed(300), by }), (session, input) => {
  const row = session.book.workTimes.get(input.workTimeId);
  if (!row) throw new ProblemError('missing', 'hours.unknown', { field: 'workTimeId' });
  if (row.void_at !== null)
    throw new ProblemError('conflict', 'hours.voided', { with: { reason: row.void_reason ?? '' } });
  refuseBilled(session, animalOf(session, row.animal_id));
  session.book.workTimes.void(row.id, input.reason, session.now(), input.by);
  return { workTimeId: row.id };
});
