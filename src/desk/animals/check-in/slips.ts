/** Blank slips for night drop-off: printed with a code, by which the animal is found that hangs with the slip in the morning. */
import { randomInt } from 'node:crypto';
import * as v from 'valibot';
import type { SlipNow } from '../../../book/records/stations/slips.ts';
import type { SlipView } from '../../contract/contract.ts';
import { ProblemError } from '../../contract/problem.ts';
import { by } from '../../input/input.ts';
import { read, write } from '../../session/procedure.ts';
import type { Session } from '../../session/session.ts';
import { draftRow } from './draft-row.ts';
import { slipCode, slipCodeIn } from './slip-code.ts';

/** A stack for a night; more are printed with another press. */
const MOST_AT_ONCE = 40;

/** Makes the codes of slips that are about to be printed. A slip that nobody uses stays blank for good. */
export const add = write(
  v.object({
    count: v.pipe(
      v.number('count.range'),
      v.integer('count.range'),
      v.minValue(1, 'count.range'),
      v.maxValue(MOST_AT_ONCE, 'count.range'),
    ),
    by,
  }),
  (session, { count, by: initials }) => {
    const codes: string[] = [];
    while (codes.length < count) {
      const code = newCode();
      if (session.book.slips.add(code, { at: session.now(), by: initials })) codes.push(code);
    }
    return { codes };
  },
);

/**
 * What a slip's code finds: what the hunter typed for it, or the animal that came with it.
 * @throws ProblemError `slip.unknown` (missing)
 */
export const find = read(v.object({ code: slipCode }), (session, { code }): SlipView => {
  const slip = slipOf(session, code, 'code');
  const draft = slip.draftId === null ? undefined : session.book.drafts.get(slip.draftId);
  return { code, draft: draft ? draftRow(session, draft) : null, ticket: ticketOf(session, slip) };
});

/**
 * A slip for which nothing was typed and with which nothing came in yet.
 * @throws ProblemError `slip.unknown` (missing), `slip.used`, `slip.filled` (refused)
 */
export function blankSlip(session: Session, code: string): SlipNow {
  const slip = unusedSlip(session, code);
  if (slip.draftId !== null)
    throw new ProblemError('refused', 'slip.filled', { field: 'slip', with: { code } });
  return slip;
}

/**
 * Marks a slip as that of an animal. Call inside the transaction of the intake.
 * @param own the draft that was typed for it is the one that is taken in
 * @throws ProblemError `slip.unknown` (missing), `slip.used`, `slip.filled` (refused)
 */
export function takeSlip(
  session: Session,
  code: string,
  { animalId, own, by: initials }: { animalId: number; own: boolean; by: string },
): void {
  const { id } = own ? unusedSlip(session, code) : blankSlip(session, code);
  session.book.slips.use(id, animalId, { at: session.now(), by: initials });
}

/** The ticket of the animal that came with the slip of this number; null for other text. */
export function ticketOfSlip(session: Session, typed: string): string | null {
  const code = slipCodeIn(typed);
  const slip = code === null ? undefined : session.book.slips.find(code);
  return slip ? ticketOf(session, slip) : null;
}

function unusedSlip(session: Session, code: string): SlipNow {
  const slip = slipOf(session, code, 'slip');
  const ticket = ticketOf(session, slip);
  if (ticket !== null) throw new ProblemError('refused', 'slip.used', { field: 'slip', with: { ticket } });
  return slip;
}

function slipOf(session: Session, code: string, field: string): SlipNow {
  const slip = session.book.slips.find(code);
  if (!slip) throw new ProblemError('missing', 'slip.unknown', { field, with: { code } });
  return slip;
}

function ticketOf(session: Session, { animalId }: SlipNow): string | null {
  return animalId === null ? null : (session.book.animals.get(animalId)?.ticket ?? null);
}

/** Nine digits, so that number pads and every reader can say it; by chance nobody hits one of a few hundred slips. */
function newCode(): string {
  return Array.from({ length: 3 }, () => String(randomInt(1000)).padStart(3, '0')).join('-');
}
