/** Where things stand on each label, in millimetres. The words take what the codes and NOT FOR SALE leave. */
import { PACKAGE_SIZES, TAG_SIZES, type PackageSize, type TagSize } from './sizes.ts';
import { notForSaleBox, type SaleLine } from './not-for-sale.ts';

export interface LabelLayout {
  /** Empty edge all round: no printer prints to the very edge. */
  edge: number;
  /** Codes beside the words, or under them. */
  codes: 'beside' | 'under';
  /** Width of the narrowest bar, and of a QR square. Whole dots of a 203 dpi printer (0.125 mm). */
  bar: number;
  square: number;
  barHeight: number;
  saleLines: SaleLine[];
  saleWidth: number;
}

const ONE_LINE: SaleLine[] = ['NOT FOR SALE'];
const TWO_LINES: SaleLine[] = ['NOT FOR', 'SALE'];
const WIDE = { codes: 'beside', bar: 0.25, square: 0.5, barHeight: 8, saleLines: ONE_LINE } as const;
const EDGE = 2.5;

/** The layout of a package label. */
export function packageLayout(size: PackageSize): LabelLayout {
  const saleWidth = PACKAGE_SIZES[size].label.width - 2 * EDGE;
  if (size === 'roll-62') {
    const under = { codes: 'under', bar: 0.25, square: 0.75, barHeight: 14 } as const;
    return { edge: EDGE, ...under, saleLines: TWO_LINES, saleWidth };
  }
  const big = size === '4x3' ? { square: 1, barHeight: 10 } : {};
  return { edge: EDGE, ...WIDE, ...big, saleLines: ONE_LINE, saleWidth };
}

/** The layout of a carcass tag: everything bigger, to be read from across the room. */
export function tagLayout(size: TagSize): LabelLayout {
  if (size === 'band') {
    const across = { codes: 'beside', bar: 0.375, square: 0.75, barHeight: 16 } as const;
    return { edge: 1.5, ...across, saleLines: TWO_LINES, saleWidth: 48 };
  }
  const under = { codes: 'under', bar: 0.5, square: 1, barHeight: 22 } as const;
  return { edge: 3, ...under, saleLines: ONE_LINE, saleWidth: TAG_SIZES[size].label.width - 6 };
}

/** Height that NOT FOR SALE takes on this layout. */
export function saleHeight(layout: LabelLayout): number {
  return notForSaleBox(layout.saleLines, layout.saleWidth).height;
}

/** Digits are the widest signs of a ticket: at most 0.61 of their height in our font, measured. */
const WIDEST_DIGIT = 0.61;

/** Height of type, in millimetres, at which a ticket fills `width` and no more than `most`. */
export function ticketType(ticket: string, width: number, most: number): number {
  return Math.min(most, width / (WIDEST_DIGIT * ticket.length));
}
