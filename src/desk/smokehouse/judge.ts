/** Holds the logs of a load against the figures: each probe's readings together, those left out apart. */
import type { LoadLogRow } from '../../book/records/smokehouse/load-logs.ts';
import { judgeCook, type CookVerdict } from '../../core/heat/cook.ts';
import { judgeCooling, type CoolingVerdict } from '../../core/heat/cooling.ts';
import { toF, type LogFault, type ProductLog, type ProductReading } from '../../core/heat/log.ts';
import type { HeatFinding as CoreFinding, HeatVerdict } from '../../core/heat/verdict.ts';
import type { HeatFinding, HeatJudgement, LoadPhase, LoadRecord, Verdict } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { coolingOption, HOST_FIGURE, timeTable } from '../supplied/smokehouse.ts';
import { bodiesIn, recordOf } from './load-record.ts';
import { hostsInLoad } from './proof.ts';

/** The readings of one probe that count, in the order in which they were written. */
export interface ProbeLog {
  readonly phase: LoadPhase;
  /** Of each reading of the log. */
  readonly ids: readonly number[];
  readonly log: ProductLog;
}

export interface Judged {
  readonly verdict: Verdict;
  readonly cook: CookVerdict | null;
  readonly cooling: CoolingVerdict | null;
  readonly probes: readonly ProbeLog[];
}

/** @throws ValidationError `log.too-long`; ProblemError `cooling.unknown` */
export function judgeLoad(session: Session, loadId: number): Judged {
  const record = recordOf(session, loadId);
  const probes = probesOf(session, loadId);
  const of = (phase: LoadPhase): ProductLog[] =>
    probes.filter((one) => one.phase === phase || one.phase === 'both').map(({ log }) => log);
  const [cookLogs, coolingLogs] = [of('cook'), of('cooling')];
  const cook = cookLogs.length === 0 ? null : cookOf(session, loadId, record, cookLogs);
  const cooling =
    coolingLogs.length === 0
      ? null
      : judgeCooling(
          {
            logs: coolingLogs,
            accuracyF: record.accuracyF,
            endOfCook: record.ovenEnd === null ? null : Date.parse(record.ovenEnd),
          },
          coolingOption(record.cooling),
        );
  return { verdict: { cook: judgement(cook), cooling: judgement(cooling) }, cook, cooling, probes };
}

function cookOf(session: Session, loadId: number, record: LoadRecord, logs: ProductLog[]): CookVerdict {
  const { ovenStart, ovenEnd } = record;
  // A batch without a casing came in after that was written down.
  const uncased =
    record.humidity?.kind === 'exempt' &&
    record.humidity.why === 'casing' &&
    bodiesIn(session, loadId).some(({ casing }) => casing === null);
  return judgeCook(
    {
      logs,
      level: record.level,
      hasSupport: record.hasSupport,
      poultry: record.poultry,
      host: hostsInLoad(session, loadId).length > 0,
      accuracyF: record.accuracyF,
      humidity: uncased ? null : record.humidity,
      cook: ovenStart && ovenEnd ? { from: Date.parse(ovenStart), to: Date.parse(ovenEnd) } : null,
    },
    timeTable(),
    HOST_FIGURE,
  );
}

function judgement(verdict: HeatVerdict | null): HeatJudgement {
  if (!verdict)
    return { answer: 'not-proven', notMet: [], missing: [{ code: 'log.none', with: {}, at: null }] };
  const { answer, notMet, missing } = verdict;
  return { answer, notMet: notMet.map(shown), missing: missing.map(shown) };
}

const shown = ({ code, with: told, at }: CoreFinding): HeatFinding => ({
  code,
  with: { ...told },
  at: at === undefined ? null : new Date(at).toISOString(),
});

function probesOf(session: Session, loadId: number): ProbeLog[] {
  const logs = session.book.loadLogs.ofLoad(loadId).filter(({ void_reason: voided }) => voided === null);
  const groups = [...Map.groupBy(logs, ({ phase, probe }) => `${phase} ${probe}`).values()];
  return groups.flatMap((group): ProbeLog[] => {
    const [first] = group;
    if (!first) return [];
    // Two scales of one probe are read in one.
    const degrees = group.every((one) => one.degrees === first.degrees) ? first.degrees : 'F';
    const ids: number[] = [];
    const readings: ProductReading[] = [];
    for (const log of group) addReadings(session, log, degrees, { ids, readings });
    const several = groups.filter(([one]) => one?.probe === first.probe).length > 1;
    const probe = several ? `${first.probe} (${first.phase})` : first.probe;
    return [{ phase: first.phase, ids, log: { probe, degrees, readings } }];
  });
}

function addReadings(
  session: Session,
  log: LoadLogRow,
  degrees: 'F' | 'C',
  { ids, readings }: { ids: number[]; readings: ProductReading[] },
): void {
  const converts = log.degrees !== degrees;
  for (const { id, read_at: at, value } of session.book.loadLogs.counting(log.id)) {
    ids.push(id);
    readings.push({ at: Date.parse(at), value: converts && value !== null ? toF(value) : value });
  }
}

/** The faults of a probe with the readings that they concern, at most so many. */
export function faultsOf(
  session: Session,
  { ids }: ProbeLog,
  faults: readonly LogFault[],
  most: number,
): { code: string; readingId: number; at: string; typed: string; drops: boolean }[] {
  return faults.slice(0, most).flatMap(({ code, index, drops }) => {
    const row = session.book.loadLogs.reading(ids[index] ?? 0);
    return row ? [{ code, readingId: row.id, at: row.read_at, typed: row.typed, drops }] : [];
  });
}
