/** The layout of each label, in millimeters. Text gets the area that codes and NOT FOR SALE leave. */
import type { SaleLine } from './not-for-sale.ts';
import { PACKAGE_SIZES, TAG_SIZES, type PackageSize, type TagSize } from '../paper/sizes.ts';

interface LabelLayout {
  /** Margin on all sides, because printers do not print to the edge. */
  edge: number;
  /**
   * Width of the narrowest bar, and of a QR module. At least three dots of a 203 dpi printer (0.375 mm): with two,
   * bars disappeared in the rendered images of the tests. A QR code tolerates finer printing.
   */
  bar: number;
  square: number;
  barHeight: number;
  /** Font size of the ticket. */
  ticket: number;
  saleLines: readonly SaleLine[];
  saleWidth: number;
}

/**
 * Width of a printed ticket's barcode with quiet zones, in narrowest bars: 101 and 10 on each side, from `barsOf`.
 */
const BARS = 121;
/** Modules per side, with the quiet zones. */
const SQUARES = 29;
const GAP = 1.5;
/** Digits are the widest characters of a ticket: at most 0.61 of the font size, measured. */
const MAX_DIGIT_WIDTH = 0.61;
/** The outline with its hole is as wide as two more digits. */
const OUTLINE_DIGITS = 2;
const MAX_TICKET = 6.5;

/** The layout of a package label for a ticket. A longer number gets a smaller font. */
export function packageLayout(size: PackageSize, ticket: string): LabelLayout {
  const edge = 2.5;
  const { width } = PACKAGE_SIZES[size].label;
  const saleWidth = width - 2 * edge;
  const codes = PACKAGE_CODES[size];
  const beside = size === 'roll-62' ? SQUARES * codes.square : widthOfBars(ticket, codes.bar);
  return {
    edge,
    saleWidth,
    ...codes,
    ticket: ticketType(ticket, saleWidth - beside - GAP, MAX_TICKET, OUTLINE_DIGITS),
  };
}

const ONE_LINE = ['NOT FOR SALE'] as const;
const TWO_LINES = ['NOT FOR', 'SALE'] as const;
const SMALL = { bar: 0.375, square: 0.625, barHeight: 8, saleLines: ONE_LINE };
const PACKAGE_CODES = {
  '4x3': { bar: 0.5, square: 0.875, barHeight: 10, saleLines: ONE_LINE },
  '4x2': SMALL,
  'roll-62': { bar: 0.375, square: 0.625, barHeight: 11, saleLines: TWO_LINES },
  letter: SMALL,
  a4: SMALL,
} satisfies Record<PackageSize, Partial<LabelLayout>>;

/** The layout of a carcass tag, in larger type so that it is legible from across the cooler. */
export function tagLayout(size: TagSize, ticket: string): LabelLayout {
  if (size === 'band') {
    const codes = { bar: 0.375, square: 0.75, barHeight: 16, saleLines: TWO_LINES, saleWidth: 48 };
    return { edge: 1.5, ...codes, ticket: ticketType(ticket, 58, 18) };
  }
  const edge = 3;
  const inside = TAG_SIZES[size].label.width - 2 * edge;
  const codes = { bar: 0.5, square: 1, barHeight: 22, saleLines: ONE_LINE, saleWidth: inside };
  return { edge, ...codes, ticket: ticketType(ticket, inside, 24) };
}

/** Bars of a ticket with its quiet zones; two more digits are one more symbol of 11 bars. */
function widthOfBars(ticket: string, bar: number): number {
  return (BARS + 11 * Math.ceil(Math.max(0, ticket.length - 7) / 2)) * bar;
}

/** The largest font size, in millimeters, at which a ticket fits `width` and does not exceed `most`. */
export function ticketType(ticket: string, width: number, most: number, besides = 0): number {
  return Math.min(most, width / (MAX_DIGIT_WIDTH * (ticket.length + besides)));
}
