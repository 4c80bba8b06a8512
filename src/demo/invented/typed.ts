/** Weights as typed by a person, and typing errors. */
import { parseReading, readingGrams } from '../../core/values/reading.ts';
import { GRAMS_PER, OUNCES_PER_POUND, roundToStep, toGrams } from '../../core/values/units.ts';
import type { Draw } from './draw.ts';
import { SHOP, type SlipKind } from './invention.ts';

const STEP = SHOP.settings.step;
/** One step of the shop's scale. */
export const STEP_GRAMS = toGrams(STEP, SHOP.settings.unit);
/** Shares of weights in a pound shop that are typed in ounces or kilograms. */
const OUNCES = 0.025;
const KILOS = 0.03;
const KILO_STEP = 0.02;

/** In the shop's unit and steps; at least one step. */
export function typedOf(grams: number): string {
  return Math.max(STEP, roundToStep(grams / GRAMS_PER[SHOP.settings.unit], STEP)).toFixed(2);
}

/** Usually as `typedOf`, sometimes in pounds and ounces or in kilograms. */
export function typedSomehow(grams: number, draw: Draw): string {
  const pounds = grams / GRAMS_PER.lb;
  if (draw.maybe(OUNCES) && pounds > 5) {
    const ounces = Math.round(pounds * OUNCES_PER_POUND);
    return `${Math.floor(ounces / OUNCES_PER_POUND)} lb ${ounces % OUNCES_PER_POUND} oz`;
  }
  if (draw.maybe(KILOS) && pounds > 5) return `${roundToStep(grams / GRAMS_PER.kg, KILO_STEP).toFixed(2)} kg`;
  return typedOf(grams);
}

export function gramsOf(typed: string): number {
  return readingGrams(parseReading(typed, SHOP.settings.unit));
}

/** The text after the slip, or null if this text cannot have it. Only plain pounds can. */
export function slipped(typed: string, slip: SlipKind): string | null {
  const [whole = '', decimals = ''] = typed.split('.');
  if (!/^\d+$/.test(whole) || !/^\d+$/.test(decimals)) return null;
  switch (slip) {
    case 'digits swapped':
      return whole.length < 2 || whole[1] === '0' || whole[0] === whole[1]
        ? null
        : `${whole[1]}${whole[0]}${whole.slice(2)}.${decimals}`;
    case 'digit missing':
      return whole.length < 2 || whole[1] === '0' ? null : `${whole.slice(1)}.${decimals}`;
    case 'decimal slipped':
      return `${whole}${decimals[0] ?? ''}.${decimals.slice(1)}0`;
    case 'kilograms as pounds':
      return roundToStep(gramsOf(typed) / GRAMS_PER.kg, KILO_STEP).toFixed(2);
    case 'weighed twice':
      return typed;
  }
}
