/** Temperatures as they are typed at a station, and those on their way to the desk. Pure. */

/** What the desk reads as a temperature: `36`, `36F`, `-2.5 °C`. */
const TEMPERATURE = /^\s*[+-]?\d{1,3}(?:[.,]\d)?\s*°?\s*[fc]?\s*$/i;

export const isTemperature = (typed: string): boolean => TEMPERATURE.test(typed);

/**
 * As typed, with the degree that a bare number implies.
 * @example degreesTyped('36', 'lb') // '36°F'
 */
export function degreesTyped(typed: string, unit: 'lb' | 'kg'): string {
  const text = typed.trim();
  return /[fc]$/i.test(text) ? text : `${text}°${unit === 'lb' ? 'F' : 'C'}`;
}
