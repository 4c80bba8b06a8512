/** The keys of the number pad, and what a press makes of the text. Pure: the pad draws them. */
import type { MassUnit } from '../../../trade/weighing.ts';

/** What is typed: a weight, a whole number, a temperature, a percentage or a ticket. */
export type PadKind = 'mass' | 'count' | 'degrees' | 'share' | 'ticket';

/** `back` takes off the last character, `clear` all of them; any other key is a text to add. */
export type PadKey = string;

const DIGITS = [
  ['7', '8', '9'],
  ['4', '5', '6'],
  ['1', '2', '3'],
] as const;

/** The fourth column, from the top: what this kind needs besides digits. */
function besides(kind: PadKind, unit: 'lb' | 'kg'): PadKey[] {
  if (kind === 'mass') return ['+', ...(unit === 'lb' ? ['lb', 'oz'] : ['kg', 'g'])];
  if (kind === 'degrees') return ['-', 'F', 'C'];
  return [];
}

/**
 * Rows of keys, the same count in each row.
 * @param point how the shop writes a decimal point
 */
export function padRows(kind: PadKind, unit: 'lb' | 'kg', point: string): PadKey[][] {
  const side = besides(kind, unit);
  const last: PadKey = kind === 'count' ? 'clear' : kind === 'ticket' ? '-' : point;
  const rows: PadKey[][] = [...DIGITS.map((row) => [...row]), [last, '0', 'back']];
  if (side.length === 0) return rows;
  return rows.map((row, at) => [...row, side[at] ?? 'clear']);
}

const UNITS: readonly string[] = ['lb', 'oz', 'kg', 'g'] satisfies MassUnit[];

/**
 * The text after a press.
 * @example pressed('18', 'lb') // '18 lb '
 * @example pressed('18 lb ', 'back') // '18'
 */
export function pressed(typed: string, key: PadKey): string {
  if (key === 'clear') return '';
  if (key === 'back') return typed.replace(/(?:\s*(?:lb|oz|kg|g)\s*|.)$/u, '');
  if (UNITS.includes(key))
    return typed === '' ? typed : `${typed.trimEnd()} ${key}${key === 'lb' ? ' ' : ''}`;
  if (key === '+') return typed === '' ? typed : `${typed.trimEnd()}+`;
  return typed + key;
}
