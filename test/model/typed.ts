/** Weights and days as hands type them, with what they mean. */
import type { Dice } from './dice.ts';
import { dayPlus, GRAMS, type Shop } from './shop.ts';

export interface TypedWeight {
  typed: string;
  grams: number;
}

/** About so many grams, typed in the shop's unit or another, to the scale's step or finer. */
export function weightNear(shop: Shop, dice: Dice, grams: number): TypedWeight {
  const { unit } = shop.book.settings;
  const way = dice.below(8);
  if (way === 6) return decimal(Math.max(1, Math.round(grams / 10)), 2, 'kg', ' kg');
  if (way === 7) return poundsAndOunces(Math.max(1, Math.round(grams / GRAMS.oz)));
  if (way === 5) return decimal(Math.max(1, Math.round((grams / GRAMS[unit]) * 10)), 1, unit, '');
  return decimal(Math.max(1, Math.round((grams / GRAMS[unit]) * 100)), 2, unit, '');
}

/** So many grams in hundredths of a pound, whatever the shop's unit is. */
export function inPounds(grams: number): TypedWeight {
  return decimal(Math.max(1, Math.floor((grams / GRAMS.lb) * 100)), 2, 'lb', ' lb');
}

function decimal(digits: number, decimals: number, unit: 'lb' | 'kg', said: string): TypedWeight {
  const text = (digits / 10 ** decimals).toFixed(decimals);
  return { typed: `${text}${said}`, grams: (digits * GRAMS[unit]) / 10 ** decimals };
}

function poundsAndOunces(ounces: number): TypedWeight {
  return { typed: `${Math.floor(ounces / 16)} lb ${ounces % 16} oz`, grams: ounces * GRAMS.oz };
}

/** What no weight is, with the code that says so. */
export const NO_WEIGHTS = [
  ['', 'reading.empty'],
  ['0', 'reading.zero'],
  ['-4', 'reading.negative'],
  ['heavy', 'reading.unreadable'],
  ['1,234', 'reading.ambiguous'],
  ['99999999', 'reading.too-heavy'],
  ['12²', 'reading.odd-digit'],
  ['84 lb 16 oz', 'reading.ounces'],
] as const;

export interface TypedDay {
  day: string;
  /** Why no day of the trade. */
  wrong: 'date.unreadable' | 'date.year' | null;
}

/** A day some days from another, or one that a keyboard slipped on. */
export function dayNear(dice: Dice, from: string, low: number, high: number): TypedDay {
  if (dice.onceIn(40)) return { day: `00${from.slice(2)}`, wrong: 'date.year' };
  if (dice.onceIn(40)) return { day: `2126${from.slice(4)}`, wrong: from.slice(5) === '02-29' ? 'date.unreadable' : 'date.year' }; // prettier-ignore
  if (dice.onceIn(40)) return { day: '2026-02-30', wrong: 'date.unreadable' };
  const day = dayPlus(from, dice.between(low, high));
  return { day, wrong: day < '1950-01-01' || day > '2099-12-31' ? 'date.year' : null };
}

export const INITIALS = ['RO', 'EH', '', 'MB'] as const;
export const REASONS = ['misread', 'another animal', 'typed twice'] as const;
