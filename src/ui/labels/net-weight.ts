import { formatAmount, fromGrams, type MassUnit } from '../../core/values/units.ts';

/** A net weight in the shop's unit and in the other one. */
interface NetWeight {
  shop: string;
  other: string;
}

/** Decimals of the shop's unit: hundredths of a pound, thousandths of a kilogram (common practice, no source). */
const DECIMALS = { lb: 2, kg: 3 } as const;
/** A converted value has three significant digits (16 CFR 500.19). */
const DIGITS = 3;
/** Tolerance for floating-point division: 0.29 lb must not become 0.28. */
const HAIR = 1e-9;

/**
 * The net weight in both units, each computed from the exact grams and rounded down, so that neither overstates the
 * content (Uniform Packaging and Labeling Regulation, NIST Handbook 130: a converted quantity must not be overstated
 * and may be rounded down; second-hand, NIST labeling fact sheet of 2002).
 * @param grams content of the package, above 0
 * @example netWeight(463, 'lb', 'en-US') // { shop: '1.02 lb', other: '0.463 kg' }
 */
export function netWeight(grams: number, unit: 'lb' | 'kg', locale: string): NetWeight {
  const other = unit === 'lb' ? 'kg' : 'lb';
  const converted = fromGrams(grams, other);
  const before = Math.max(1, Math.floor(Math.log10(converted)) + 1);
  return {
    shop: written(grams, unit, DECIMALS[unit], locale),
    other: written(
      grams,
      other,
      Math.min(DECIMALS[other], Math.max(0, DIGITS - before + zeros(converted))),
      locale,
    ),
  };
}

/** 1 for a value below one: its leading 0 is not significant. */
function zeros(value: number): number {
  return value < 1 ? 1 : 0;
}

function written(grams: number, unit: MassUnit, decimals: number, locale: string): string {
  const scaled = fromGrams(grams, unit) * 10 ** decimals;
  const nearest = Math.round(scaled);
  const whole = Math.abs(scaled - nearest) < HAIR * Math.max(1, scaled) ? nearest : Math.floor(scaled);
  return `${formatAmount(whole / 10 ** decimals, decimals, locale)} ${unit}`;
}
