import type { Format } from '../texts/format.ts';

/**
 * A temperature in the shop's scale: °F with pounds, °C with kilograms.
 * @example degreesText(4.4, format) // '40°F'
 */
export function degreesText(celsius: number, format: Pick<Format, 'unit' | 'number'>): string {
  return format.unit === 'lb'
    ? `${format.number((celsius * 9) / 5 + 32)}°F`
    : `${format.number(celsius, 1)}°C`;
}
