/** Holds the log of a cook against the published time-temperature table with its come-up time, humidity and kinds of meat. */
import { requireFinite, requireNonNegative, ValidationError } from '../values/validation-error.ts';
import { comeUpTime } from './come-up.ts';
import { dwells, mayBeMet, type Dwell } from './dwell.ts';
import type { HostFigure, Level, TimeTable } from './figures.ts';
import { checkHumidity, type HumidityRecord } from './humidity.ts';
import {
  checkLog,
  faultFindings,
  gapsBetween,
  type CheckedLog,
  type HeatPoint,
  type LogFault,
  type ProductLog,
  requireMeasured,
} from './log.ts';
import { verdictOf, worstOf, type HeatFinding, type HeatVerdict } from './verdict.ts';

export interface CookCheck {
  /** One log for each probe; the coldest spot decides. */
  readonly logs: readonly ProductLog[];
  readonly level: Level;
  /** Whether the shop has the further support that the 5-log column asks for. */
  readonly hasSupport?: boolean;
  /** Any poultry or game bird in it: the table of meat does not apply. */
  readonly poultry: boolean;
  /** Bear, boar and other animals that may carry Trichinella. */
  readonly host: boolean;
  /** What the thermometer may be off by either way, °F. */
  readonly accuracyF: number;
  readonly humidity: HumidityRecord | null;
  /** Oven on and off, ms UTC. */
  readonly cook: { readonly from: number; readonly to: number } | null;
  readonly longestGapMinutes?: number;
}

export interface CookVerdict extends HeatVerdict {
  readonly probes: readonly ProbeVerdict[];
}

export interface ProbeVerdict extends HeatVerdict {
  readonly probe: string;
  readonly faults: readonly LogFault[];
  readonly points: readonly HeatPoint[];
  /** The row that was met first, of several at one moment the hottest; else the one that came nearest. */
  readonly dwell: Dwell | null;
  readonly comeUp: { readonly mostMinutes: number | null; readonly leastMinutes: number } | null;
  readonly highestF: number | null;
}

/** Minutes between readings beyond which nothing is credited. Our choice, no source. */
export const LONGEST_GAP_MINUTES = 10;

/**
 * @throws ValidationError `log.none`, `id.duplicate` (a probe twice), `gap.not-positive`, `cook.reversed`, `share.out-of-range`
 *   (accuracy), and those of `checkLog` and `checkHumidity`
 */
export function judgeCook(check: CookCheck, table: TimeTable, hosts: HostFigure): CookVerdict {
  const { logs, accuracyF, longestGapMinutes = LONGEST_GAP_MINUTES, cook } = check;
  requireMeasured({ logs, accuracyF, longestGapMinutes });
  if (cook && !(cook.to > cook.from)) throw new ValidationError('cook.reversed', 'cook');
  const minutes = cook ? (cook.to - cook.from) / 60_000 : null;
  const humidity = checkHumidity(check.humidity, minutes, table);
  const general: HeatFinding[] = [...humidity.missing];
  if (check.poultry) general.push({ code: 'table.not-for-poultry', with: {} });
  if (check.level === 'log5' && !check.hasSupport) general.push({ code: 'table.needs-support', with: {} });
  const probes = logs.map((log) => {
    const found = checkLog(log, table.comeUp.toF);
    return { probe: log.probe, ...judgeProbe(found, check, table, hosts, humidity.leastF) };
  });
  const worst = worstOf(probes);
  const notMet = [...humidity.notMet, ...worst.notMet];
  const missing = [...general, ...worst.missing];
  // What certainly fell short decides, whatever else is left open.
  const short = worst.answer === 'not-met' || humidity.notMet.length > 0;
  return short ? { answer: 'not-met', notMet, missing, probes } : { ...verdictOf(notMet, missing), probes };
}

function judgeProbe(
  { points, faults }: CheckedLog,
  check: CookCheck,
  table: TimeTable,
  hosts: HostFigure,
  leastF: number | null,
): Omit<ProbeVerdict, 'probe'> {
  const { level, accuracyF, longestGapMinutes = LONGEST_GAP_MINUTES } = check;
  const { comeUp: rule } = table;
  const missing: HeatFinding[] = faultFindings(faults);
  const notMet: HeatFinding[] = [];
  const last = points.at(-1);
  if (!last) {
    missing.push({ code: 'log.empty', with: {} });
    return { ...verdictOf([], missing), faults, points, dwell: null, comeUp: null, highestF: null };
  }
  const all = dwells(points, { rows: table.rows, level, leastF, accuracyF, longestGapMinutes });
  const met = earliest(all);
  const dwell = met ?? nearest(all);
  if (!met && dwell) {
    const { row, needSeconds, seconds, mostSeconds } = dwell;
    const told = { f: row.f, seconds, need: needSeconds, most: mostSeconds };
    (all.some(mayBeMet) ? missing : notMet).push({
      code: all.some(mayBeMet) ? 'dwell.not-shown' : 'dwell.short',
      with: told,
    });
  }
  const coldest = all[0]?.row.f;
  if (!met && coldest !== undefined && last.f + accuracyF >= coldest)
    missing.push({ code: 'log.ends-hot', at: last.at, with: { f: last.f } });
  const until = met?.metAt ?? firstHot(points, rule.toF) ?? last.at;
  const up = comeUpTime(points, rule, accuracyF, until);
  const told = { minutes: up.mostMinutes ?? up.leastMinutes, limit: rule.minutes };
  if (up.leastMinutes > rule.minutes) notMet.push({ code: 'come-up.long', with: told });
  else if (up.mostMinutes === null) missing.push({ code: 'come-up.start', with: { f: rule.fromF } });
  else if (up.mostMinutes > rule.minutes) missing.push({ code: 'come-up.not-shown', with: told });
  const highestF = points.reduce((most, { f }) => Math.max(most, f), -Infinity);
  if (check.host && highestF - accuracyF < hosts.f)
    (highestF + accuracyF >= hosts.f ? missing : notMet).push({
      code: 'host.below',
      with: { f: highestF, need: hosts.f + accuracyF },
    });
  const window = { from: up.from, to: met?.metAt ?? last.at, longestMinutes: longestGapMinutes };
  for (const { at, minutes } of gapsBetween(points, window))
    missing.push({ code: 'log.gap', at, with: { minutes, limit: longestGapMinutes } });
  return { ...verdictOf(notMet, missing), faults, points, dwell, comeUp: up, highestF };
}

function earliest(all: readonly Dwell[]): Dwell | undefined {
  return all
    .filter(({ metAt }) => metAt !== null)
    .toSorted((a, b) => (a.metAt ?? 0) - (b.metAt ?? 0) || b.row.f - a.row.f)[0];
}

/** The row of which the largest part was reached; of an instant one, none. */
function nearest(all: readonly Dwell[]): Dwell | null {
  const part = ({ seconds, needSeconds }: Dwell): number => (needSeconds === 0 ? 0 : seconds / needSeconds);
  return all.toSorted((a, b) => part(b) - part(a) || a.row.f - b.row.f)[0] ?? null;
}

const firstHot = (points: readonly HeatPoint[], f: number): number | null =>
  points.find((point) => point.f >= f)?.at ?? null;

/**
 * A critical limit that allows for the thermometer: the figure and what the thermometer may be off by (guideline of 2021, page 20).
 * @throws ValidationError `number.not-finite`, `share.out-of-range` (a negative accuracy)
 * @example criticalLimitF(165, 1) // 166
 */
export function criticalLimitF(f: number, accuracyF: number): number {
  requireNonNegative(accuracyF, 'accuracyF');
  return requireFinite(f, 'f') + accuracyF;
}
