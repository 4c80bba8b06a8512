/** Common sizes of cuts. Thickness and weight: common practice, no source. */
import type { PrimalUse } from '../../bridge/contract.ts';
import { text as ordersText } from '../../words/compiled/window/orders.ts';

const SIZES: Readonly<Record<'lb' | 'kg', Partial<Record<PrimalUse, readonly string[]>>>> = {
  lb: {
    steaks: ['½ in', '¾ in', '1 in', '1¼ in', '1½ in'],
    roasts: ['2 lb', '3 lb', '4 lb', '5 lb'],
    stew: ['1 in', '1½ in'],
    strips: ['¼ in', '⅜ in', '½ in'],
  },
  kg: {
    steaks: ['1.5 cm', '2 cm', '2.5 cm', '3 cm', '4 cm'],
    roasts: ['1 kg', '1.5 kg', '2 kg'],
    stew: ['2.5 cm', '4 cm'],
    strips: ['6 mm', '1 cm'],
  },
};

/** The default choice. */
export function sizesFor(as: PrimalUse, unit: 'lb' | 'kg'): readonly string[] {
  return as === 'whole' ? Object.values(ordersText.wholeSizes) : (SIZES[unit][as] ?? []);
}

const FRACTIONS: Readonly<Record<string, string>> = {
  '1/8': '⅛', '1/4': '¼', '3/8': '⅜', '1/2': '½', '5/8': '⅝', '3/4': '¾', '7/8': '⅞',
}; // prettier-ignore
const BARE_NUMBER = /^[\d.,]*[⅛¼⅜½⅝¾⅞]?$/;

/**
 * A size as printed on the cut sheet: fractions as one character, with the implied unit.
 * @example sizeText('1 1/4', 'steaks', 'lb') // '1¼ in'
 */
export function sizeText(typed: string, as: PrimalUse, unit: 'lb' | 'kg'): string {
  const text = typed
    .trim()
    .replace(/(\d)\s+(?=\d\/\d)/, '$1')
    .replace(/([1357])\/([248])(?!\d)/, (written) => FRACTIONS[written] ?? written);
  if (text === '' || !BARE_NUMBER.test(text) || as === 'whole') return text;
  return `${text} ${as === 'roasts' ? unit : unit === 'lb' ? 'in' : 'cm'}`;
}
