/** Batches that the meat of positive animals reached, by season, derived from weights, results and cleanings. */
import type { PositiveRow } from '../../book/records/results/traces.ts';
import { reachOf, type Reached, type TracedBatch, type TracedCleaning } from '../../core/trace/reach.ts';
import type { Session } from '../session/session.ts';

interface SeasonTraces {
  /** For each positive animal, the batches that its meat reached. */
  reached: { source: PositiveRow; batches: ReadonlyMap<number, Reached> }[];
  /** Animals in each reached batch. */
  members: ReadonlyMap<number, readonly number[]>;
}

const NOTHING: SeasonTraces = { reached: [], members: new Map() };

/**
 * Traces of a season. The grinder is disassembled between seasons, so traces do not cross them. Common practice, no
 * source. Cached until a hold, a batch or a cleaning changes.
 */
export function tracesOf(session: Session, season: number): SeasonTraces {
  const { changes } = session.book;
  const versions = `${changes.version('grind')} ${changes.version('hook')}`;
  return session.cached('animal', season, `traces ${versions}`, () => trace(session, season));
}

/** Batches of a season that were ground, with their animals. */
export function batchesOf({ book }: Session, season: number): TracedBatch[] {
  const members = Map.groupBy(book.traces.members(season), ({ batch_id }) => batch_id);
  return book.traces
    .batches(season)
    .map((row) => ({ ...row, animals: (members.get(row.id) ?? []).map(({ animal_id }) => animal_id) }));
}

/** Cleanings that may matter to these batches. */
export function cleaningsFor({ book }: Session, batches: readonly TracedBatch[]): TracedCleaning[] {
  const [one] = batches;
  if (!one) return [];
  const earliest = batches.reduce((first, batch) => (batch.first < first ? batch.first : first), one.first);
  const latest = batches.reduce((last, batch) => (batch.last > last ? batch.last : last), one.last);
  return book.traces.cleanings(earliest, latest);
}

function trace(session: Session, season: number): SeasonTraces {
  const positives = session.book.traces.positives(season);
  const batches = positives.length === 0 ? [] : batchesOf(session, season);
  if (batches.length === 0) return NOTHING;
  const cleanings = cleaningsFor(session, batches);
  const reached = positives.map((source) => ({ source, batches: reachOf(source.id, batches, cleanings) }));
  const any = new Set(reached.flatMap((one) => [...one.batches.keys()]));
  const members = batches.filter(({ id }) => any.has(id)).map(({ id, animals }) => [id, animals] as const);
  return { reached, members: new Map(members) };
}
