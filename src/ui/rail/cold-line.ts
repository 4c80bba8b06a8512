/** Size of the drawing. */
const WIDE = 100;
const HIGH = 36;
/** Kept free above and below the line. */
const AIR = 3;

/**
 * The points of a temperature line, time to the right and warmer upward, and the height of the limit. Null for fewer
 * than two readings.
 * @param readings oldest first, temperatures in °C
 * @example coldLine([{ at: '2026-11-14T06:00:00Z', c: 1 }, { at: '2026-11-14T18:00:00Z', c: 3 }], 4)?.points // '0,33 100,13'
 */
export function coldLine(
  readings: readonly { at: string; c: number }[],
  limitC: number,
): { points: string; limitY: number } | null {
  if (readings.length < 2) return null;
  const times = readings.map(({ at }) => Date.parse(at));
  const [from, to] = [Math.min(...times), Math.max(...times)];
  const values = [...readings.map(({ c }) => c), limitC];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const y = (c: number): number =>
    Math.round(HIGH - AIR - ((c - low) / (high - low || 1)) * (HIGH - 2 * AIR));
  const x = (time: number): number => Math.round(((time - from) / (to - from || 1)) * WIDE);
  return {
    points: readings.map(({ c }, i) => `${x(times[i] ?? from)},${y(c)}`).join(' '),
    limitY: y(limitC),
  };
}
