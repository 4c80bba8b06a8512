/**
 * NOT FOR SALE, required on custom packs and custom carcasses in letters at least 3/8 in high (9 CFR 316.16 and
 * 317.16). On narrow labels it takes two lines or is condensed, never smaller. In Canada, where that rule does not hold, it stands in
 * both official languages, in letters of one size.
 */
import type { Language } from '../../words/languages.ts';

export type SaleLine = 'NOT FOR SALE' | 'NOT FOR' | 'SALE' | 'NON DESTINÉ À LA VENTE';

/** 3/8 in is 9.525 mm; the extra allows for printers that shrink. */
const LETTER_MM = 9.9;
/** Two lines of these take about the room of one line of those. */
const CANADIAN_LETTER_MM = 4.4;
const GAP_MM = 1.2;
/** Overshoot of O and S above and below the flat letters, as a fraction of the font size, measured. */
const OVERSHOOT = 0.016;
/** Accents above capitals, as a fraction of the font size, measured with the bundled font. */
const ACCENT = 0.21;

/**
 * Height of flat capitals as a fraction of the font size in Atkinson Hyperlegible Next (cap height 668 of 1000
 * units).
 */
const CAP = 0.668;
export const SALE_TYPE_MM = LETTER_MM / CAP;

/** Widths of the lines at weight 800 as a fraction of the font size, measured with the bundled font. */
const NATURAL: Record<SaleLine, number> = {
  'NOT FOR SALE': 7.228,
  'NOT FOR': 4.421,
  SALE: 2.477,
  'NON DESTINÉ À LA VENTE': 12.6,
};

const CANADIAN: Partial<Record<Language, SaleLine>> = {
  'en-CA': 'NOT FOR SALE',
  'fr-CA': 'NON DESTINÉ À LA VENTE',
};

interface SaleBox {
  width: number;
  height: number;
  /** Font size. */
  type: number;
  lines: { text: SaleLine; baseline: number; width: number }[];
}

/** What is printed, with the height of its letters: both languages of a Canadian label, else English in the lines of the layout. */
export function saleLines(
  languages: readonly (Language | undefined)[],
  layout: readonly SaleLine[],
): { lines: readonly SaleLine[]; letter: number } {
  const canadian = languages.map((language) => language && CANADIAN[language]);
  if (languages.length < 2 || !canadian.every((line) => line !== undefined))
    return { lines: layout, letter: LETTER_MM };
  return { lines: canadian as SaleLine[], letter: CANADIAN_LETTER_MM };
}

/**
 * Positions of the lines in a box of `width` mm, all condensed equally so that the widest fits.
 * @param letter height of flat capitals, mm
 * @example notForSaleBox(['NOT FOR SALE'], 96.6).height // 10.37…, the letters with their overshoot
 */
export function notForSaleBox(lines: readonly SaleLine[], width: number, letter = LETTER_MM): SaleBox {
  const type = letter / CAP;
  const widest = Math.max(...lines.map((line) => NATURAL[line])) * type;
  const closeness = Math.min(1, width / widest);
  const over = OVERSHOOT * type;
  let below = over;
  const placed = lines.map((text, i) => {
    below += (i > 0 ? GAP_MM : 0) + (/[ÀÉ]/u.test(text) ? ACCENT * type : 0) + letter;
    return { text, baseline: below, width: NATURAL[text] * type * closeness };
  });
  return { width, height: below + over, type, lines: placed };
}
