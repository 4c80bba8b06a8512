/**
 * Compares what comes out of a batch with what went in. A small excess is scale tolerance. A larger one is water,
 * ice, cheese or seasoning that was weighed for no recipe, or a mistyped weight; it needs one reason per batch. Twice
 * the input is impossible. The check runs when packages are weighed or corrected, and when the batch is finished.
 * Voiding an input weight of an open batch is always allowed, because that is how a mistyped weight is fixed.
 */
import type { BatchRecord } from '../../book/records/batches.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Output above this fraction of the input needs a reason: two scales agree within it. Common practice, no source. */
const AS_WEIGHED = 1.02;
/** Output above this fraction is refused, whatever was added. Our choice, no source. */
const MAX_OUT = 2;

interface ExcessOutput {
  /** The user confirmed the excess. */
  confirmed: boolean;
  reason: string;
}

/** Grams in and out of a batch, voided weights excluded. What a product of the smokehouse takes besides meat went in too. */
export function massOf(session: Session, batchId: number): { inGrams: number; outGrams: number } {
  let [inGrams, outGrams] = [0, 0];
  for (const { stage, grams, void_at } of session.book.weighings.ofBatch(batchId)) {
    if (void_at !== null) continue;
    if (stage === 'grinder') inGrams += grams;
    if (stage === 'packed') outGrams += grams;
  }
  if (inGrams > 0) inGrams += session.book.madeWeights.addedTo(batchId);
  return { inGrams, outGrams };
}

/**
 * Checks the current state of a batch inside the transaction that changed it, and records the reason in the audit.
 * @throws ProblemError `batch.nothing-in`, `batch.too-much-out` (refused); `batch.more-out` (conflict: pass
 * `confirmed` and a `reason`)
 */
export function checkMassBalance(
  session: Session,
  batch: Pick<BatchRecord, 'id' | 'name'>,
  input: ExcessOutput & { by: string },
): void {
  const { inGrams, outGrams } = massOf(session, batch.id);
  if (outGrams === 0) return;
  if (inGrams === 0) throw new ProblemError('refused', 'batch.nothing-in', { with: { batch: batch.name } });
  const amounts = { batch: batch.name, inGrams, outGrams };
  if (outGrams > inGrams * MAX_OUT)
    throw new ProblemError('refused', 'batch.too-much-out', { field: 'typed', with: amounts });
  if (outGrams <= inGrams * AS_WEIGHED || whyMoreOut(session, batch.id)) return;
  if (!input.confirmed || input.reason === '')
    throw new ProblemError('conflict', 'batch.more-out', { field: 'reason', with: amounts });
  session.book.audit.note({
    record: 'batch', recordId: batch.id, act: 'change', before: { inGrams }, after: { outGrams },
    reason: input.reason, at: session.now(), by: input.by,
  }); // prettier-ignore
}

/** The reason given for more output than input, or null. */
export function whyMoreOut(session: Session, batchId: number): { reason: string; by: string } | null {
  const entry = session.book.audit
    .of('batch', batchId)
    .findLast(({ after }) => after?.includes('"outGrams"'));
  return entry ? { reason: entry.reason ?? '', by: entry.by ?? '' } : null;
}
