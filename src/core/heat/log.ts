/** A log of product temperature: its sound readings in order of time, and by name whatever is wrong with it. Nothing is dropped silently. */
import { requireFinite, requireNonNegative, ValidationError } from '../values/validation-error.ts';
import { clockFaults, type LogFault } from './clock.ts';
import { valueFaults } from './sensor.ts';
import type { HeatFinding } from './verdict.ts';

export type { LogFault } from './clock.ts';

export interface ProductReading {
  /** Moment, ms UTC. */
  readonly at: number;
  /** In the degrees of the log; null where the logger wrote none. */
  readonly value: number | null;
}

export interface ProductLog {
  /** Of the probe or the piece. */
  readonly probe: string;
  readonly degrees: 'F' | 'C';
  /** In the order of the file. */
  readonly readings: readonly ProductReading[];
}

/** A sound reading, °F. */
export interface HeatPoint {
  readonly at: number;
  readonly f: number;
}

export interface CheckedLog {
  readonly points: readonly HeatPoint[];
  readonly faults: readonly LogFault[];
}

/** A reading every second for two days, and some. */
export const MAX_READINGS = 200_000;

/** What a judgement rests on besides the figures that it is held against. */
interface Measured {
  readonly logs: readonly ProductLog[];
  /** What the thermometer may be off by either way, °F. */
  readonly accuracyF: number;
  readonly longestGapMinutes: number;
}

/** @throws ValidationError `log.none`, `id.duplicate` (a probe twice), `gap.not-positive`, `share.out-of-range` (a negative accuracy) */
export function requireMeasured({ logs, accuracyF, longestGapMinutes }: Measured): void {
  if (logs.length === 0) throw new ValidationError('log.none', 'logs');
  if (new Set(logs.map(({ probe }) => probe)).size < logs.length)
    throw new ValidationError('id.duplicate', 'logs');
  requireNonNegative(accuracyF, 'accuracyF');
  if (!(requireFinite(longestGapMinutes, 'longestGapMinutes') > 0))
    throw new ValidationError('gap.not-positive', 'longestGapMinutes');
}

/** A log is judged as a cook and as a cooling: what was found of it last. */
const checked = new WeakMap<ProductLog, { hotF: number; found: CheckedLog }>();

/**
 * Readings in order of time in °F without those that are at fault.
 * @param log is not changed afterwards
 * @param hotF the temperature that the product must have had at some time: a log in °F far below it may be in °C
 * @throws ValidationError `log.too-long`, `number.not-finite` (a moment)
 */
export function checkLog(log: ProductLog, hotF: number): CheckedLog {
  const known = checked.get(log);
  if (known?.hotF === hotF) return known.found;
  const found = checkReadings(log, hotF);
  checked.set(log, { hotF, found });
  return found;
}

function checkReadings({ degrees, readings }: ProductLog, hotF: number): CheckedLog {
  if (readings.length > MAX_READINGS)
    throw new ValidationError('log.too-long', 'readings', { most: MAX_READINGS });
  const odd = readings.findIndex(({ at }) => !Number.isFinite(at));
  if (odd >= 0) requireFinite(readings[odd]?.at ?? NaN, `readings[${odd}].at`);
  const values = readings.map(({ at, value }) => ({ at, f: fahrenheitOf(value, degrees) }));
  const clock = clockFaults(readings.map(({ at }) => at));
  const faults = [...valueFaults(values, degrees, hotF), ...clock].sort((a, b) => a.index - b.index);
  const bad = new Set(faults.filter(({ drops }) => drops).map(({ index }) => index));
  const points = values.filter((value, i): value is HeatPoint => value.f !== null && !bad.has(i));
  return { points: points.sort((a, b) => a.at - b.at), faults };
}

function fahrenheitOf(value: number | null, degrees: 'F' | 'C'): number | null {
  if (value === null || Number.isNaN(value)) return null;
  return degrees === 'C' ? toF(value) : value;
}

/** One finding for each kind of fault, with how many there are and when the first was; each by itself stands in `faults`. */
export function faultFindings(faults: readonly LogFault[]): HeatFinding[] {
  return [...Map.groupBy(faults, ({ code }) => code)].map(([code, of]) => ({
    code,
    with: { ...of[0]?.with, count: of.length },
    at: of[0]?.at ?? 0,
  }));
}

export function toF(celsius: number): number {
  return (celsius * 9) / 5 + 32;
}

export function toC(fahrenheit: number): number {
  return ((fahrenheit - 32) * 5) / 9;
}

/** The first gap longer than the limit between two moments, as a finding, or none. */
export function gapsBetween(
  points: readonly HeatPoint[],
  { from, to, longestMinutes }: { from: number; to: number; longestMinutes: number },
): { at: number; minutes: number }[] {
  const gaps: { at: number; minutes: number }[] = [];
  for (let i = 1; i < points.length; i++) {
    const [before, point] = [points[i - 1] as HeatPoint, points[i] as HeatPoint];
    const minutes = (point.at - before.at) / MINUTE;
    if (minutes > longestMinutes && point.at > from && before.at < to) gaps.push({ at: before.at, minutes });
  }
  return gaps;
}

export const MINUTE = 60_000;
