import { ValidationError } from '../values/validation-error.ts';

/** A weight and its time, in milliseconds of any monotonic clock. */
export interface TimedWeight {
  readonly grams: number;
  readonly at: number;
}

export interface SteadyRule {
  /** At least this many readings. */
  readonly least: number;
  /** Over at least this many milliseconds. */
  readonly overMs: number;
  /** All within this range of each other: the step of the scale, in grams. */
  readonly stepGrams: number;
}

/**
 * Whether a scale that does not report stability is stable: the newest readings, as many as `least` and `overMs`
 * require, lie within one step of each other. Common practice, no source. Oldest first.
 * @throws ValidationError `scale.clock` (times run backwards), `number.not-finite`
 * @example isSteady([{ grams: 8440, at: 0 }, { grams: 8445, at: 500 }, { grams: 8445, at: 1000 }],
 *   { least: 3, overMs: 1000, stepGrams: 10 }) // true
 */
export function isSteady(
  readings: readonly TimedWeight[],
  { least, overMs, stepGrams }: SteadyRule,
): boolean {
  readings.forEach(({ grams, at }, index) => {
    if (!Number.isFinite(grams) || !Number.isFinite(at))
      throw new ValidationError('number.not-finite', `readings[${index}]`);
    if (at < (readings[index - 1]?.at ?? at))
      throw new ValidationError('scale.clock', `readings[${index}].at`);
  });
  const last = readings.at(-1);
  if (!last) return false;
  const long = readings.findLastIndex(({ at }) => at <= last.at - overMs);
  // A slow scale needs longer to send enough readings.
  const from = Math.min(long, readings.length - least);
  if (from < 0) return false;
  const window = readings.slice(from).map(({ grams }) => grams);
  // A step in pounds is no whole number of grams: allow for the last binary digit.
  const room = stepGrams * (1 + 1e-9);
  return Math.max(...window) - Math.min(...window) <= room;
}
