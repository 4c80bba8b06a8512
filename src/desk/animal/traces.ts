/** Which batches the meat of positive animals reached, season by season. It follows from weights, results and cleanings alone. */
import type { PositiveRow } from '../../book/records/results/traces.ts';
import { reachOf, type Reached, type TracedBatch } from '../../core/trace/reach.ts';
import type { Session } from '../session/session.ts';

interface SeasonTraces {
  /** Of each positive animal, the batches that its meat reached. */
  reached: { source: PositiveRow; batches: ReadonlyMap<number, Reached> }[];
  /** Animals whose meat was weighed into each batch that was reached. */
  members: ReadonlyMap<number, readonly number[]>;
}

const NOTHING: SeasonTraces = { reached: [], members: new Map() };

/**
 * The grinder is traced within a season: between seasons it lies taken apart. Common practice, no source. Worked out when
 * first asked for, and again after a hold, a batch or a cleaning changed.
 */
export function tracesOf(session: Session, season: number): SeasonTraces {
  const { changes } = session.book;
  const versions = `${changes.version('grind')} ${changes.version('hook')}`;
  return session.cached('animal', season, `traces ${versions}`, () => trace(session, season));
}

function trace({ book }: Session, season: number): SeasonTraces {
  const positives = book.traces.positives(season);
  if (positives.length === 0) return NOTHING;
  const members = new Map<number, number[]>();
  for (const { batch_id, animal_id } of book.traces.members(season))
    members.set(batch_id, [...(members.get(batch_id) ?? []), animal_id]);
  const batches: TracedBatch[] = book.traces
    .batches(season)
    .map((row) => ({ ...row, animals: members.get(row.id) ?? [] }));
  const [earliest] = batches;
  if (!earliest) return NOTHING;
  const latest = batches.reduce((last, batch) => (batch.last > last ? batch.last : last), earliest.last);
  const cleanings = book.traces.cleanings(earliest.first, latest);
  const reached = positives.map((source) => ({ source, batches: reachOf(source.id, batches, cleanings) }));
  const any = new Set(reached.flatMap((one) => [...one.batches.keys()]));
  return { reached, members: new Map([...members].filter(([id]) => any.has(id))) };
}
