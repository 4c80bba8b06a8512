/**
 * What comes out of a batch against what went in. A little more is the scale; more than that is water, ice, cheese or
 * seasoning, which are not weighed in here, or a mistyped weight: somebody says which, once for the batch. Twice what went in
 * is no sausage any more. The rule is asked when packages are weighed or corrected, and when the batch is finished. Voiding
 * what went in is free in an open batch: that is how a mistyped weight is put right.
 */
import type { BatchRecord } from '../../book/records/batches.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** More than this of what went in is asked about: two scales agree within it. Common practice, no source. */
const AS_WEIGHED = 1.02;
/** More than this cannot come out, whatever was added. Our choice, no source. */
const MAX_OUT = 2;

interface ExcessOutput {
  /** Says that it is right all the same. */
  confirmed: boolean;
  reason: string;
}

/** Grams in and out of a batch by the weights that count. */
export function massOf(session: Session, batchId: number): { inGrams: number; outGrams: number } {
  let [inGrams, outGrams] = [0, 0];
  for (const { stage, grams, void_at } of session.book.weighings.ofBatch(batchId)) {
    if (void_at !== null) continue;
    if (stage === 'grinder') inGrams += grams;
    if (stage === 'packed') outGrams += grams;
  }
  return { inGrams, outGrams };
}

/**
 * Checks a batch as it stands now, inside the transaction that changed it; keeps the reason in its trail.
 * @throws ProblemError `batch.nothing-in`, `batch.too-much-out` (refused); `batch.more-out` (conflict: pass `confirmed` and a `reason`)
 */
export function checkMassBalance(
  session: Session,
  batch: Pick<BatchRecord, 'id' | 'name'>,
  said: ExcessOutput & { by: string },
): void {
  const { inGrams, outGrams } = massOf(session, batch.id);
  if (outGrams === 0) return;
  if (inGrams === 0) throw new ProblemError('refused', 'batch.nothing-in', { with: { batch: batch.name } });
  const amounts = { batch: batch.name, inGrams, outGrams };
  if (outGrams > inGrams * MAX_OUT)
    throw new ProblemError('refused', 'batch.too-much-out', { field: 'typed', with: amounts });
  if (outGrams <= inGrams * AS_WEIGHED || whyMoreOut(session, batch.id)) return;
  if (!said.confirmed || said.reason === '')
    throw new ProblemError('conflict', 'batch.more-out', { field: 'reason', with: amounts });
  session.book.audit.note({
    record: 'batch', recordId: batch.id, act: 'change', before: { inGrams }, after: { outGrams },
    reason: said.reason, at: session.now(), by: said.by,
  }); // prettier-ignore
}

/** What somebody said when more came out than went in, or null. */
export function whyMoreOut(session: Session, batchId: number): { reason: string; by: string } | null {
  const said = session.book.audit.of('batch', batchId).findLast(({ after }) => after?.includes('"outGrams"'));
  return said ? { reason: said.reason ?? '', by: said.by ?? '' } : null;
}
