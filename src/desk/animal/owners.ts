import { apportion } from '../../core/values/apportion.ts';
import { toGrams } from '../../core/values/units.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage } from '../contract/contract.ts';

/**
 * Divides the packages of a batch among its owners by the lean put in (own fat counts too). Whole packages are
 * divided by largest remainders, so the counts add up exactly. Grams follow the lean, not the packages, and are
 * exact. Displayed grams are whole scale steps, divided the same way, so that each column adds up to its displayed
 * total.
 */
export function ownersOf(session: Session, batchId: number): BatchPage['owners'] {
  const rows = session.book.weighings.ofBatch(batchId).filter((row) => row.void_at === null);
  const out = rows.filter((row) => row.stage === 'packed');
  const packages = out.reduce((total, row) => total + (row.count ?? 0), 0);
  const outGrams = out.reduce((total, row) => total + row.grams, 0);
  const animals = session.book.batches.animals(batchId);
  const lean = animals.map(({ id }) =>
    rows
      .filter((row) => row.animal_id === id && row.stage === 'grinder')
      .reduce((total, row) => total + row.grams, 0),
  );
  const all = lean.reduce((total, grams) => total + grams, 0);
  const counts = all > 0 ? apportion(packages, lean) : lean.map(() => 0);
  const stepGrams = toGrams(session.settings.step, session.settings.unit);
  const inSteps = (total: number): number[] =>
    all > 0
      ? apportion(Math.round(total / stepGrams), lean).map((steps) => steps * stepGrams)
      : lean.map(() => 0);
  const shownLean = inSteps(all);
  const shownShare = inSteps(outGrams);
  return animals.map(({ ticket, hunter }, i) => ({
    ticket,
    hunter,
    leanGrams: lean[i] ?? 0,
    shareGrams: all > 0 ? (outGrams * (lean[i] ?? 0)) / all : 0,
    shownLeanGrams: shownLean[i] ?? 0,
    shownShareGrams: shownShare[i] ?? 0,
    packages: counts[i] ?? 0,
  }));
}
