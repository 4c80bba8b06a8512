/**
 * NOT FOR SALE, required on custom packs and custom carcasses in letters at least 3/8 in high (9 CFR 316.16 and
 * 317.16). On narrow labels it takes two lines or is condensed, never smaller.
 */
export type SaleLine = 'NOT FOR SALE' | 'NOT FOR' | 'SALE';

/** 3/8 in is 9.525 mm; the extra allows for printers that shrink. */
const LETTER_MM = 9.9;
const GAP_MM = 1.2;
/** Overshoot of O and S above and below the flat letters, as a fraction of the font size, measured. */
const OVERSHOOT = 0.016;

/**
 * Height of flat capitals as a fraction of the font size in Atkinson Hyperlegible Next (cap height 668 of 1000
 * units).
 */
const CAP = 0.668;
export const SALE_TYPE_MM = LETTER_MM / CAP;

/** Widths of the lines at weight 800 as a fraction of the font size, measured with the bundled font. */
const NATURAL: Record<SaleLine, number> = { 'NOT FOR SALE': 7.228, 'NOT FOR': 4.421, SALE: 2.477 };

interface SaleBox {
  width: number;
  height: number;
  lines: { text: SaleLine; baseline: number; width: number }[];
}

/**
 * Positions of the lines in a box of `width` mm, all condensed equally so that the widest fits.
 * @example notForSaleBox(['NOT FOR SALE'], 96.6).height // 10.37…, the letters with their overshoot
 */
export function notForSaleBox(lines: readonly SaleLine[], width: number): SaleBox {
  const widest = Math.max(...lines.map((line) => NATURAL[line])) * SALE_TYPE_MM;
  const closeness = Math.min(1, width / widest);
  const over = OVERSHOOT * SALE_TYPE_MM;
  return {
    width,
    height: lines.length * LETTER_MM + (lines.length - 1) * GAP_MM + 2 * over,
    lines: lines.map((text, i) => ({
      text,
      baseline: over + LETTER_MM + i * (LETTER_MM + GAP_MM),
      width: NATURAL[text] * SALE_TYPE_MM * closeness,
    })),
  };
}
