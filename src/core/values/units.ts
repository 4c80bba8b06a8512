import { requireFinite, ValidationError } from './validation-error.ts';
import type { MassUnit } from '../../trade/weighing.ts';

export type { MassUnit };

/**
 * Grams per unit, exact by definition: the international pound of 1 July 1959 is 0.45359237 kg (16 CFR 500.19; Fed.
 * Std. 376), and an avoirdupois ounce is a sixteenth of it.
 */
export const GRAMS_PER: Readonly<Record<MassUnit, number>> = {
  lb: 453.59237,
  oz: 28.349523125,
  kg: 1000,
  g: 1,
};

export const OUNCES_PER_POUND = 16;

/** Converts `value` in `unit` to grams. @throws ValidationError `number.not-finite` */
export function toGrams(value: number, unit: MassUnit): number {
  return requireFinite(value, 'value') * GRAMS_PER[unit];
}

/** Converts grams to `unit`. @throws ValidationError `number.not-finite` */
export function fromGrams(grams: number, unit: MassUnit): number {
  return requireFinite(grams, 'grams') / GRAMS_PER[unit];
}

/**
 * Rounds to a whole number of steps, half away from zero (the rule of commercial scales), and returns the
 * result with exactly the decimals of the step: `roundToStep(1.005, 0.01)` is `1.01`, though 1.005 is stored
 * slightly below. @throws ValidationError `number.not-finite`, `step.not-positive`
 */
export function roundToStep(value: number, step: number): number {
  requireFinite(value, 'value');
  if (!(requireFinite(step, 'step') > 0)) throw new ValidationError('step.not-positive', 'step', { step });
  const steps = Math.abs(value) / step;
  const whole = Math.floor(steps + 0.5 + Number.EPSILON * 4 * Math.max(1, steps));
  const rounded = Number((whole * step).toFixed(decimalsOf(step)));
  return rounded === 0 ? 0 : Math.sign(value) * rounded;
}

/** Decimal places of a step: 0.05 has 2, 5 has none. Steps finer than 1e-9 do not occur. */
export function decimalsOf(step: number): number {
  for (let places = 0; places < 9; places++) {
    const scaled = step * 10 ** places;
    if (Math.abs(scaled - Math.round(scaled)) < 1e-9 * Math.max(1, scaled)) return places;
  }
  return 9;
}

const formats = new Map<string, Intl.NumberFormat>();

/** A plain number with a fixed count of decimals in the shop’s locale, never a negative zero. Formatters are cached: creating one is slow. */
export function formatAmount(value: number, decimals: number, locale = 'en-US'): string {
  const key = `${locale} ${decimals}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      signDisplay: 'negative',
    });
    formats.set(key, format);
  }
  return format.format(value);
}
