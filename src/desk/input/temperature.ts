import { ValidationError } from '../../core/values/validation-error.ts';

/**
 * °C of `36`, `36F`, `2 °C`, `2,5c`; a bare number is in the shop's unit. `field` names the entry in a problem.
 * @throws ValidationError `temperature.unreadable`, `temperature.range`
 */
export function parseTemperature(typed: string, usual: 'F' | 'C', field = 'tempTyped'): number {
  const match = /^\s*([+-]?\d{1,3}(?:[.,]\d)?)\s*°?\s*([fc])?\s*$/i.exec(typed.replace('−', '-'));
  if (!match) throw new ValidationError('temperature.unreadable', field, { typed });
  const value = Number((match[1] ?? '').replace(',', '.'));
  const celsius = (match[2]?.toUpperCase() ?? usual) === 'F' ? ((value - 32) * 5) / 9 : value;
  if (celsius < -40 || celsius > 60) throw new ValidationError('temperature.range', field, { typed });
  return celsius;
}
