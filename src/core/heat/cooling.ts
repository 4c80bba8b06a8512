/** Holds the log of a cooling product against a two-stage option, between bounds: no time is read off a line between two readings. */
import { requireFinite } from '../values/validation-error.ts';
import type { CoolingOption, CoolingStage } from './figures.ts';
import {
  checkLog,
  faultFindings,
  gapsBetween,
  MINUTE,
  type HeatPoint,
  type LogFault,
  type ProductLog,
  requireMeasured,
} from './log.ts';
import { verdictOf, worstOf, type HeatFinding, type HeatVerdict } from './verdict.ts';

export interface CoolingCheck {
  readonly logs: readonly ProductLog[];
  readonly accuracyF: number;
  /** End of cooking, ms UTC, where an option asks for it. */
  readonly endOfCook?: number | null;
  readonly longestGapMinutes?: number;
}

export interface StageTime {
  readonly stage: CoolingStage;
  /** What it took at most and at least, min; null where an end is not in the log. */
  readonly mostMinutes: number | null;
  readonly leastMinutes: number;
}

export interface CoolingVerdict extends HeatVerdict {
  readonly probes: readonly (HeatVerdict & {
    readonly probe: string;
    readonly faults: readonly LogFault[];
    readonly stages: readonly StageTime[];
  })[];
}

/** Minutes between readings of a cooling product beyond which nothing is credited: half an hour. Our choice, no source. */
export const LONGEST_COOLING_GAP_MINUTES = 30;

/** A product that rises so much above the end of a stage got warm again; less is the thermometer. Our choice. */
const ROSE_F = 5;

/**
 * @throws ValidationError `log.none`, `id.duplicate`, `gap.not-positive`, `share.out-of-range` (accuracy), and those of `checkLog`
 */
export function judgeCooling(check: CoolingCheck, option: CoolingOption): CoolingVerdict {
  const { logs, accuracyF, longestGapMinutes = LONGEST_COOLING_GAP_MINUTES } = check;
  requireMeasured({ logs, accuracyF, longestGapMinutes });
  const probes = logs.map((log) => {
    const { points, faults } = checkLog(log, option.stages[0]?.fromF ?? 0);
    const { notMet, missing, stages } = judgePoints(points, check, option, longestGapMinutes);
    return { probe: log.probe, faults, stages, ...verdictOf(notMet, [...faultFindings(faults), ...missing]) };
  });
  const worst = worstOf(probes);
  if (option.confirmed || worst.answer === 'not-met') return { ...worst, probes };
  const unconfirmed = { code: 'cooling.unconfirmed', with: { option: option.code } };
  return { ...verdictOf(worst.notMet, [unconfirmed, ...worst.missing]), probes };
}

interface Judged {
  notMet: HeatFinding[];
  missing: HeatFinding[];
  stages: StageTime[];
}

function judgePoints(
  points: readonly HeatPoint[],
  { accuracyF, endOfCook }: CoolingCheck,
  option: CoolingOption,
  longestMinutes: number,
): Judged {
  const found: Judged = { notMet: [], missing: [], stages: [] };
  const { stages, startMinutes } = option;
  const [firstStage, lastStage] = [stages[0], stages.at(-1)];
  const falling = fromPeak(points);
  const end = falling.at(-1);
  if (!firstStage || !lastStage || !end) {
    found.missing.push({ code: 'log.empty', with: {} });
    return found;
  }
  const starts = lastAtOrAbove(falling, firstStage.fromF, accuracyF);
  if (starts === null) found.missing.push({ code: 'cooling.start', with: { f: firstStage.fromF } });
  const finished = firstAtOrBelow(falling, lastStage.toF, accuracyF);
  if (finished === null) found.missing.push({ code: 'cooling.incomplete', with: { f: lastStage.toF } });
  for (const stage of stages) judgeStage(falling, stage, { accuracyF, last: lastStage }, found);
  if (startMinutes !== null) judgeStart(falling, firstStage, accuracyF, { startMinutes, endOfCook }, found);
  const window = { from: starts ?? -Infinity, to: finished ?? end.at, longestMinutes };
  for (const { at, minutes } of gapsBetween(falling, window))
    found.missing.push({ code: 'log.gap', at, with: { minutes, limit: longestMinutes } });
  // Surely too long is too long, whatever else is not in the log.
  if (found.notMet.length > 0) found.missing = [];
  return found;
}

/** Between the earliest and the latest moments at which the product can have passed the two temperatures. */
function judgeStage(
  points: readonly HeatPoint[],
  stage: CoolingStage,
  { accuracyF, last }: { accuracyF: number; last: CoolingStage },
  { notMet, missing, stages }: Judged,
): void {
  const earliestStart = lastAtOrAbove(points, stage.fromF, accuracyF);
  const latestStart = firstAtOrBelow(points, stage.fromF, accuracyF);
  const latestEnd = firstAtOrBelow(points, stage.toF, accuracyF);
  const earliestEnd = lastAtOrAbove(points, stage.toF, accuracyF);
  const most =
    earliestStart === null || latestEnd === null ? null : Math.max(0, latestEnd - earliestStart) / MINUTE;
  const least =
    latestStart === null || earliestEnd === null ? 0 : Math.max(0, earliestEnd - latestStart) / MINUTE;
  stages.push({ stage, mostMinutes: most, leastMinutes: least });
  if (latestEnd !== null && stage !== last) {
    const again = points.find(({ at, f }) => at > latestEnd && f - accuracyF > stage.toF + ROSE_F);
    if (again) missing.push({ code: 'cooling.rose', at: again.at, with: { f: again.f, from: stage.toF } });
  }
  if (stage.minutes === null) return;
  const told = { from: stage.fromF, to: stage.toF, minutes: most ?? least, limit: stage.minutes };
  if (least > stage.minutes) notMet.push({ code: 'cooling.long', at: latestStart ?? 0, with: told });
  else if (most !== null && most > stage.minutes)
    missing.push({ code: 'cooling.not-shown', with: { ...told, least } });
}

function judgeStart(
  points: readonly HeatPoint[],
  { fromF }: CoolingStage,
  accuracyF: number,
  { startMinutes, endOfCook }: { startMinutes: number; endOfCook?: number | null | undefined },
  { notMet, missing }: Judged,
): void {
  if (endOfCook === undefined || endOfCook === null) {
    missing.push({ code: 'cook.times', with: {} });
    return;
  }
  const sure = firstAtOrBelow(points, fromF, accuracyF);
  if (sure === null) return;
  const most = (sure - requireFinite(endOfCook, 'endOfCook')) / MINUTE;
  const least = ((lastAtOrAbove(points, fromF, accuracyF) ?? endOfCook) - endOfCook) / MINUTE;
  const told = { minutes: most, limit: startMinutes };
  if (least > startMinutes) notMet.push({ code: 'cooling.late', with: told });
  else if (most > startMinutes) missing.push({ code: 'cooling.start-not-shown', with: told });
}

/** The readings from the hottest one on, the last of several: what comes before is the cook. */
function fromPeak(points: readonly HeatPoint[]): readonly HeatPoint[] {
  const most = points.reduce((max, { f }) => Math.max(max, f), -Infinity);
  return points.slice(
    Math.max(
      0,
      points.findLastIndex(({ f }) => f === most),
    ),
  );
}

/** The last moment at which the product was surely this hot before it was surely colder. */
function lastAtOrAbove(points: readonly HeatPoint[], f: number, accuracyF: number): number | null {
  let found: number | null = null;
  for (const one of points) {
    if (one.f + accuracyF < f) break;
    if (one.f - accuracyF >= f) found = one.at;
  }
  return found;
}

/** The first moment at which the product was surely this cold. */
function firstAtOrBelow(points: readonly HeatPoint[], f: number, accuracyF: number): number | null {
  return points.find((one) => one.f + accuracyF <= f)?.at ?? null;
}
