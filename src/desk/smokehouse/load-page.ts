/** The page of one load: curves, what they had to reach, and what they say. */
import * as v from 'valibot';
import { criticalLimitF } from '../../core/heat/cook.ts';
import type { HeatPoint } from '../../core/heat/log.ts';
import type { LoadPage, LoadRecord, ProbeCurve } from '../contract/contract.ts';
import { id } from '../input/input.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import type { Session } from '../session/session.ts';
import { coolingOption, HOST_FIGURE, timeTable } from '../supplied/smokehouse.ts';
import { sourceNote } from '../supplied/sources.ts';
import { faultsOf, judgeLoad, type Judged, type ProbeLog } from './judge.ts';
import { loadLine } from './load-line.ts';
import { loadOf, recordOf } from './load-record.ts';
import { madeOf } from './made-batch.ts';
import { madeLine } from './made-line.ts';
import { decisionOf, hostsInLoad } from './proof.ts';

/** Points of a curve: as many as a screen is wide in thirds. */
const MAX_POINTS = 400;
const MAX_FAULTS = 200;
const HOUR = 3_600_000;
/** Slower than this it does not rise, °F an hour. Our choice. */
const RISES_F = 1;

/** @throws ProblemError `load.unknown` */
export const get = readAfterLearning(v.object({ id }), (session, input): LoadPage => {
  const load = loadOf(session, input.id);
  const record = recordOf(session, load.id);
  const kept = session.book.loads.record(load.id);
  const judged = judgeLoad(session, load.id);
  const hosts = hostsInLoad(session, load.id);
  const line = loadLine(session, load);
  const target = targetOf(record, hosts.length > 0);
  return {
    ...line,
    record,
    recordedAt: kept?.at ?? null,
    recordedBy: kept?.by ?? null,
    made: line.batches.map(({ madeId }) => madeLine(session, madeOf(session, madeId))),
    hosts,
    target,
    now: judged.probes.length > 0 ? judged.verdict : null,
    curves: curvesOf(session, judged),
    logs: session.book.loadLogs.ofLoad(load.id).map((log) => ({
      id: log.id,
      phase: log.phase,
      probe: log.probe,
      degrees: log.degrees,
      source: log.source,
      file: log.file,
      readings: session.book.loadLogs.count(log.id),
      excluded: session.book.loadLogs.excludedIn(log.id),
      at: log.at,
      by: log.by,
      voided: log.void_reason,
    })),
    verdicts: session.book.loads
      .verdicts(load.id)
      .map(({ cook, cooling, at, by }) => ({ cook, cooling, at, by })),
    decisions: session.book.loadLogs.decidedOfLoad(load.id).map(decisionOf),
    doneAt:
      record.ovenEnd === null ? doneAt(session, judged, Math.max(target.atOnceF, target.hostF ?? 0)) : null,
  };
});

function targetOf({ level, accuracyF, humidity, cooling }: LoadRecord, host: boolean): LoadPage['target'] {
  const table = timeTable();
  const leastF = table.humidity.find(({ code }) => code === humidity?.kind)?.leastF ?? null;
  const rows = table.rows.filter(({ f }) => leastF === null || f >= leastF);
  const atOnce = rows.find((row) => row[level] === 0) ?? rows.at(-1);
  const option = coolingOption(cooling);
  const { fromF, toF, minutes } = table.comeUp;
  return {
    rows: rows.map((row) => ({ f: criticalLimitF(row.f, accuracyF), seconds: row[level] })),
    atOnceF: criticalLimitF(atOnce?.f ?? 0, accuracyF),
    hostF: host ? criticalLimitF(HOST_FIGURE.f, accuracyF) : null,
    comeUp: { fromF, toF, minutes },
    cooling: {
      code: option.code,
      name: option.name,
      stages: option.stages.map((stage) => ({ ...stage })),
      confirmed: option.confirmed,
    },
    source: sourceNote(table),
  };
}

function curvesOf(session: Session, { probes, cook, cooling }: Judged): ProbeCurve[] {
  return probes.map((probe): ProbeCurve => {
    const cooked = cook?.probes.find((one) => one.probe === probe.log.probe);
    const cooled = cooling?.probes.find((one) => one.probe === probe.log.probe);
    const points = cooked?.points ?? soundOf(probe);
    const faults = cooked?.faults ?? cooled?.faults ?? [];
    const dwell = cooked?.dwell ?? null;
    return {
      probe: probe.log.probe,
      phase: probe.phase,
      points: thinned(points).map(({ at, f }) => ({ at: new Date(at).toISOString(), f })),
      readings: probe.ids.length,
      highestF: cooked?.highestF ?? null,
      answer: cooked?.answer ?? cooled?.answer ?? 'not-proven',
      dwell: dwell && {
        f: dwell.row.f,
        needSeconds: dwell.needSeconds,
        seconds: dwell.seconds,
        metAt: dwell.metAt === null ? null : new Date(dwell.metAt).toISOString(),
      },
      comeUpMinutes: cooked?.comeUp?.mostMinutes ?? null,
      cooling: (cooled?.stages ?? []).map(({ stage, mostMinutes }) => ({
        fromF: stage.fromF,
        toF: stage.toF,
        limitMinutes: stage.minutes,
        minutes: mostMinutes,
      })),
      faults: faultsOf(session, probe, faults, MAX_FAULTS),
    };
  });
}

/** Of a probe that only cools: its numbers in order of time. */
function soundOf({ log }: ProbeLog): HeatPoint[] {
  const inF = (value: number): number => (log.degrees === 'C' ? (value * 9) / 5 + 32 : value);
  return log.readings
    .flatMap(({ at, value }) => (value === null ? [] : [{ at, f: inF(value) }]))
    .toSorted((a, b) => a.at - b.at);
}

/** Evenly, with the hottest and the last point. */
function thinned(points: readonly HeatPoint[]): HeatPoint[] {
  if (points.length <= MAX_POINTS) return [...points];
  const step = Math.ceil(points.length / (MAX_POINTS - 2));
  const hottest = points.reduce((best, { f }, i) => (f > (points[best]?.f ?? -Infinity) ? i : best), 0);
  return points.filter((_, i) => i % step === 0 || i === hottest || i === points.length - 1);
}

/** When the slowest probe reaches the target at the rate of its last hour. */
function doneAt(session: Session, { cook }: Judged, targetF: number): string | null {
  const now = Date.parse(session.now());
  const times = (cook?.probes ?? []).map(({ points }) => {
    const last = points.at(-1);
    const before = last && points.find(({ at }) => at >= last.at - HOUR);
    if (!last || !before || last.f >= targetF || now - last.at > HOUR) return null;
    const perHour = ((last.f - before.f) * HOUR) / (last.at - before.at);
    return perHour >= RISES_F ? last.at + ((targetF - last.f) / perHour) * HOUR : null;
  });
  const known = times.filter((one) => one !== null);
  return known.length === 0 ? null : new Date(Math.max(...known)).toISOString();
}
