import type { Reading } from '../../core/values/reading.ts';
import type { MassUnit } from '../../core/values/units.ts';

/** Digits, decimals and unit as text that can be typed; the unit is left out where it is the shop's own. */
export function typedText(reading: Omit<Reading, 'typed'>, shopUnit?: MassUnit): string {
  if (reading.loads) return reading.loads.map((load) => typedText(load, shopUnit)).join(' + ');
  const number = (reading.digits / 10 ** reading.decimals).toFixed(reading.decimals);
  return reading.unit === shopUnit ? number : `${number} ${reading.unit}`;
}
