/** One line about a load, as lists show it. */
import type { LoadRow } from '../../book/records/smokehouse/loads.ts';
import { toF } from '../../core/heat/log.ts';
import type { LoadLine } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { recipeOf, sumsOf } from './made-batch.ts';
import { stateOfLoad } from './load-record.ts';
import { basisOf } from './proof.ts';

export function loadLine(session: Session, load: LoadRow): LoadLine {
  const verdict = session.book.loads.verdict(load.id);
  const last = lastOf(session, load.id);
  return {
    id: load.id,
    name: load.name,
    oven: load.oven,
    state: stateOfLoad(session, load.id),
    batches: session.book.loads.batches(load.id).flatMap(({ id: loadBatchId, made_id: madeId }) => {
      const made = session.book.made.get(madeId);
      if (!made || made.void_at !== null) return [];
      const { product } = recipeOf(session, made);
      const { stuffed: stuffedGrams } = sumsOf(session, madeId);
      return [{ loadBatchId, madeId, name: made.name, product, stuffedGrams }];
    }),
    readings: session.book.loadLogs.readingsOf(load.id),
    lastF: last ? (last.degrees === 'C' ? toF(last.value) : last.value) : null,
    lastAt: last?.read_at ?? null,
    verdict: verdict
      ? { cook: verdict.cook, cooling: verdict.cooling, fresh: verdict.basis === basisOf(session, load.id) }
      : null,
    decided:
      session.book.loadLogs.decidedOfLoad(load.id).findLast((one) => one.void_reason === null)?.decided ??
      null,
    at: load.at,
    by: load.by,
  };
}

/** The newest reading of a load, among all of its logs. */
function lastOf(
  session: Session,
  loadId: number,
): { value: number; read_at: string; degrees: 'F' | 'C' } | undefined {
  return session.book.loadLogs
    .ofLoad(loadId)
    .flatMap((log) => {
      const newest = log.void_reason === null ? session.book.loadLogs.newest(log.id) : undefined;
      return newest ? [{ ...newest, degrees: log.degrees }] : [];
    })
    .reduce<ReturnType<typeof lastOf>>(
      (best, one) => (!best || one.read_at > best.read_at ? one : best),
      undefined,
    );
}
