import type { MassUnit } from '../../core/values/units.ts';

/** Digits, decimals and unit as text that can be typed; without the unit if it is the shop's own. */
export function typedText(
  reading: { digits: number; decimals: number; unit: MassUnit },
  shopUnit?: MassUnit,
): string {
  const number = (reading.digits / 10 ** reading.decimals).toFixed(reading.decimals);
  return reading.unit === shopUnit ? number : `${number} ${reading.unit}`;
}
