/** A linear scale from values to pixels, with a few round ticks. */
export interface SceneAxis {
  at: (value: number) => number;
  ticks: number[];
  least: number;
  most: number;
}

/**
 * An axis between round values that includes all `values`, with about `count` ticks spaced by 1, 2 or 5 times a
 * power of ten. Equal values get room on both sides.
 * @example axisOf([0.42, 0.58], 0, 100, 4).ticks // [0.4, 0.45, 0.5, 0.55, 0.6]
 */
export function axisOf(values: readonly number[], from: number, to: number, count = 5): SceneAxis {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const span = high - low || Math.abs(high) * 0.1 || 1;
  const step = roundStep(span / count);
  const first = Math.floor(low / step + 1e-9) - (high === low ? 1 : 0);
  const last = Math.ceil(high / step - 1e-9) + (high === low ? 1 : 0);
  const [least, most] = [first * step, last * step];
  return {
    at: (value) => from + ((value - least) / (most - least)) * (to - from),
    ticks: Array.from({ length: last - first + 1 }, (_, i) => round((first + i) * step)),
    least,
    most,
  };
}

function roundStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough) + 1e-9);
  const found = [1, 2, 5, 10].find((times) => times * power >= rough - 1e-12);
  return (found ?? 10) * power;
}

/** Removes the floating-point error of a round number. */
function round(value: number): number {
  return Number(value.toPrecision(12));
}
