/** The axes that the stories share. */
import { toGrams } from '../../../core/values/units.ts';
import type { Format } from '../../texts/format.ts';
import type { Axis } from '../plot.ts';

/** Text size in the pictures in CSS pixels, well above the minimum of twelve. */
export const FONT_SIZE = 14;
/** Height of the labels below a plot and of the title under them, in CSS pixels. */
export const FOOT = 32;
export const TITLE = 22;

/** One row or column for each name. */
export function namesAxis(names: readonly (string | string[])[]): Axis {
  return {
    names: true,
    min: -0.5,
    max: Math.max(names.length, 1) - 0.5,
    ticks: names.map((_, i) => i),
    written: (at) => names[at] ?? '',
  };
}

/** Shares in percent, with a decimal only where a label needs it. */
export function sharesAxis(format: Pick<Format, 'share'>, title?: string): Axis {
  const whole = (share: number): boolean => Math.abs(share * 100 - Math.round(share * 100)) < 1e-6;
  return {
    written: (share) => format.share(share, whole(share) ? 0 : 1),
    ...(title === undefined ? {} : { title }),
  };
}

/** Weights in the shop's unit, labeled at round ones; the values are grams in that unit. */
export function massAxis(format: Pick<Format, 'mass' | 'unit'>): Axis {
  return { written: (amount) => format.mass(toGrams(amount, format.unit), 0) };
}

/** Counts from zero: only whole numbers are labeled. */
export function countsAxis(format: Pick<Format, 'number'>, title?: string): Axis {
  return {
    min: 0,
    written: (n) => (Number.isInteger(n) ? format.number(n) : ''),
    ...(title === undefined ? {} : { title }),
  };
}

/** Places at equal distances, both ends among them. */
export function sharedTicks(from: number, to: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));
}
