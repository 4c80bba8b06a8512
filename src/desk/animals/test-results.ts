/** Laboratory results of a held animal. The state of the hold follows from them. */
import * as v from 'valibot';
import type { HoldStanding } from '../../book/records/results/test-results.ts';
import { compareDates } from '../../core/values/dates.ts';
import { askFar, isConfirmed, refuseFuture, RESULT_DAYS } from '../input/day-doubts.ts';
import { by, id, optionalDate, confirmedOf, text } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { TestResult } from '../contract/contract.ts';
import { animalOf } from '../animal/closed.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { TEST_RESULTS } from '../../trade/animal.ts';

/**
 * Saves the result of a hold's sample. `not detected` ends the hold, `positive` keeps it, and `none` withdraws a
 * mistaken result, so that the hold waits again. A second result of the same hold corrects the first and requires a
 * reason; the first stays readable. The sample number defaults to that of the hold.
 * @throws ProblemError `hold.none`, `result.too-many` (refused), `result.reason` (invalid),
 * `result.nothing-to-correct`, `date.future`, `result.before-kill`, `date.long-ago`, `result.other-sample` (conflict:
 * pass `confirmed` to save anyway)
 */
export const testResult = write(
  v.object({
    id,
    /** Default: the active hold. */
    holdId: v.optional(id),
    result: v.picklist(TEST_RESULTS, 'choice.result'),
    sample: text(80),
    lab: text(120),
    on: optionalDate,
    note: text(500),
    reason: text(300),
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const animal = animalOf(session, input.id);
    const holdId = input.holdId ?? session.book.animals.hold(animal.id)?.id ?? 0;
    const known = session.book.testResults.standing(holdId);
    if (!known || known.animal_id !== animal.id || known.lifted === 1)
      throw new ProblemError('missing', 'hold.none', { with: { ticket: animal.ticket } });
    refuseMoreOfAnimal(session, animal, 'result');
    checkCorrection(animal.ticket, known, input);
    const on = input.on ?? session.today();
    refuseFuture(on, session.today(), 'on');
    if (animal.kill_date && compareDates(on, animal.kill_date) < 0)
      throw new ProblemError('invalid', 'result.before-kill', { field: 'on' });
    askFar(input.confirmed, 'on', on, session.today(), { ago: RESULT_DAYS });
    const sample = input.sample || known.sample;
    if (
      !isConfirmed(input.confirmed, 'result.other-sample') &&
      known.sample !== '' &&
      sample !== known.sample
    )
      throw new ProblemError('conflict', 'result.other-sample', {
        field: 'sample',
        with: { ticket: animal.ticket, sample: known.sample, typed: sample },
      });
    session.book.testResults.add({
      hold_id: known.id,
      result: input.result,
      sample,
      lab: input.lab,
      reported_on: on,
      note: input.note,
      reason: input.reason,
      at: session.now(),
      by: input.by,
    });
    return { id: animal.id };
  },
);

function checkCorrection(
  ticket: string,
  { result: before }: HoldStanding,
  { result, reason }: { result: TestResult; reason: string },
): void {
  const first = before === null || before === 'none';
  if (first && result === 'none')
    throw new ProblemError('refused', 'result.nothing-to-correct', { with: { ticket } });
  if (!first && reason === '')
    throw new ProblemError('invalid', 'result.reason', { field: 'reason', with: { ticket, before } });
}

/** Results of an animal's samples, newest first; the newest of each hold counts. */
export function resultsOf(session: Session, animalId: number) {
  const rows = session.book.testResults.ofAnimal(animalId);
  return rows.map((row, i) => ({
    holdId: row.hold_id,
    result: row.result,
    sample: row.sample,
    lab: row.lab,
    on: row.reported_on,
    note: row.note,
    reason: row.reason,
    at: row.at,
    by: row.by,
    counts: rows.findIndex(({ hold_id }) => hold_id === row.hold_id) === i,
  }));
}
