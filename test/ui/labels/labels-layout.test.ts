/** Positions of labels on paper and of elements on labels; codes are read back by another vendor's reader. */
import { describe, expect, it } from 'vitest';
import { BarcodeFormat, BinaryBitmap, Code128Reader, HybridBinarizer, QRCodeReader, RGBLuminanceSource } from '@zxing/library'; // prettier-ignore
import { barsOf, squareOf, type CodeShape } from '../../../src/ui/labels/codes/codes.ts';
import { copiesTyped } from '../../../src/ui/labels/copies.ts';
import { packageLayout, tagLayout, ticketType } from '../../../src/ui/labels/layout.ts';
import { notForSaleBox, SALE_TYPE_MM } from '../../../src/ui/labels/not-for-sale.ts';
import { sheetsOf } from '../../../src/ui/paper/sheets.ts';
import { PACKAGE_SIZES, TAG_SIZES, type PackageSize } from '../../../src/ui/paper/sizes.ts';
import { pageRule } from '../../../src/ui/paper/usePageRule.ts';

const packageSizes = Object.keys(PACKAGE_SIZES) as PackageSize[];
const count = (n: number) => Array.from({ length: n }, (_, i) => i);

describe('papers', () => {
  it('have their nominal sizes', () => {
    const said = Object.fromEntries(
      [...Object.entries(PACKAGE_SIZES), ...Object.entries(TAG_SIZES)].map(([code, { page }]) => [
        code,
        `${page.width.toFixed(1)} x ${page.height.toFixed(1)}`,
      ]),
    );
    expect(said).toEqual({
      '4x3': '101.6 x 76.2',
      '4x2': '101.6 x 50.8',
      'roll-62': '62.0 x 100.0',
      letter: '215.9 x 279.4',
      a4: '210.0 x 297.0',
      '4x6': '101.6 x 152.4',
      band: '25.0 x 250.0',
    });
    expect(pageRule(PACKAGE_SIZES['roll-62'].page)).toBe('@page { size: 62mm 100mm; margin: 0; }');
  });

  it.each(packageSizes)('%s: labels are on the page, without overlaps, centered', (code) => {
    const size = PACKAGE_SIZES[code];
    const each = size.columns * size.rows;
    const [page = []] = sheetsOf(count(each), size);
    expect(page).toHaveLength(each);
    for (const { left, top } of page) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(left + size.label.width).toBeLessThanOrEqual(size.page.width + 1e-9);
      expect(top + size.label.height).toBeLessThanOrEqual(size.page.height + 1e-9);
    }
    const corners = new Set(page.map(({ left, top }) => `${left.toFixed(3)} ${top.toFixed(3)}`));
    expect(corners.size).toBe(each);
    const last = page.at(-1);
    expect(page[0]?.left).toBeCloseTo(size.page.width - (last?.left ?? 0) - size.label.width, 9);
    expect(page[0]?.top).toBeCloseTo(size.page.height - (last?.top ?? 0) - size.label.height, 9);
  });

  it('start after used labels, and have no missing labels or empty pages', () => {
    const { letter } = PACKAGE_SIZES;
    for (const used of [0, 1, 9]) {
      for (const n of [0, 1, 10, 11, 25]) {
        const pages = sheetsOf(count(n), letter, used);
        expect(pages.flat().map(({ item }) => item)).toEqual(count(n));
        expect(pages.every((page) => page.length > 0)).toBe(true);
        expect(pages).toHaveLength(n === 0 ? 0 : Math.ceil((n + used) / 10));
      }
    }
    expect(sheetsOf(['a'], letter, 3)[0]?.[0]).toMatchObject({
      left: letter.left + 101.6,
      top: letter.top + 50.8,
    });
    expect(sheetsOf(['a'], PACKAGE_SIZES['4x3'], 5)).toHaveLength(1);
  });
});

describe('NOT FOR SALE', () => {
  it.each([
    ...packageSizes.map((code) => [code, packageLayout(code, '26-0147')] as const),
    ['4x6', tagLayout('4x6', '26-0147')] as const,
    ['band', tagLayout('band', '26-0147')] as const,
  ])('%s: has letters of 3/8 in and fits its width', (_code, layout) => {
    const box = notForSaleBox(layout.saleLines, layout.saleWidth);
    // Cap height of the bundled font, 668 of 1000 units.
    expect(SALE_TYPE_MM * 0.668).toBeGreaterThanOrEqual((25.4 * 3) / 8);
    expect(box.lines.map(({ text }) => text).join(' ')).toBe('NOT FOR SALE');
    for (const { width, baseline } of box.lines) {
      expect(width).toBeLessThanOrEqual(layout.saleWidth + 1e-9);
      expect(baseline).toBeLessThan(box.height);
    }
  });
});

describe('layouts', () => {
  const tickets = ['26-0147', '26-123456'];

  it('leave at least a third of the label for text, beside codes at full size', () => {
    for (const ticket of tickets) {
      for (const code of packageSizes) {
        const { label } = PACKAGE_SIZES[code];
        const layout = packageLayout(code, ticket);
        const inside = { width: label.width - 2 * layout.edge, height: label.height - 2 * layout.edge };
        const [bars, square] = [barsOf(ticket), squareOf(ticket)];
        const barsWidth = (bars.width + 2 * bars.quiet) * layout.bar;
        const squareWidth = (square.width + 2 * square.quiet) * layout.square;
        const sale = notForSaleBox(layout.saleLines, layout.saleWidth).height;
        const tall = code === 'roll-62';
        // The ticket in its outline, measured, is wider than its digits by 1.15 of its font size.
        const tag = layout.ticket * (0.61 * ticket.length + 1.15);
        expect(tag + (tall ? squareWidth : barsWidth), `${code} ${ticket}`).toBeLessThan(inside.width);
        expect(barsWidth).toBeLessThanOrEqual(inside.width);
        const words = tall
          ? inside.width * (inside.height - squareWidth - layout.barHeight - sale - 3)
          : (inside.width - squareWidth - 1.5) * (inside.height - layout.barHeight - sale - 2);
        expect(words / (label.width * label.height), `${code} ${ticket}`).toBeGreaterThan(1 / 3);
      }
    }
  });

  it('draw bars in whole dots of a 203 dpi printer, at least three', () => {
    for (const layout of [
      ...packageSizes.map((code) => packageLayout(code, '26-0147')),
      tagLayout('4x6', '26-0147'),
      tagLayout('band', '26-0147'),
    ]) {
      expect((layout.bar / 0.125) % 1).toBe(0);
      expect((layout.square / 0.125) % 1).toBe(0);
      expect(layout.bar).toBeGreaterThanOrEqual(0.375);
    }
  });

  it('reduce the font size of a long ticket to fit the width', () => {
    expect(ticketType('26-0147', 95, 30)).toBeCloseTo(95 / (0.61 * 7), 9);
    expect(ticketType('26-0147', 95, 10)).toBe(10);
    expect(ticketType('26-123456', 95, 30)).toBeLessThan(ticketType('26-0147', 95, 30));
  });
});

/** A QR code as pixels, `scale` per module; requires paths of straight edges at integer coordinates. */
function pixels(code: CodeShape, scale: number, high: number): RGBLuminanceSource {
  const edge = code.quiet;
  const width = (code.width + 2 * edge) * scale;
  const rings = code.d
    .split('z')
    .filter(Boolean)
    .map((ring) => corners(ring));
  const rows = Math.max(high, code.height + (code.height > 1 ? 2 * edge : 0));
  const luminance = new Uint8ClampedArray(width * rows * scale).fill(255);
  for (let y = 0; y < rows * scale; y++) {
    for (let x = 0; x < width; x++) {
      const at = { x: (x + 0.5) / scale - edge, y: code.height > 1 ? (y + 0.5) / scale - edge : 0.5 };
      // Even-odd rule: a ray to the right crosses the edges of a dark module an odd number of times.
      const crossings = rings.flatMap((ring) =>
        ring.filter((from, i) => {
          const to = ring[(i + 1) % ring.length] ?? from;
          return from.x === to.x && from.x > at.x && from.y > at.y !== to.y > at.y;
        }),
      );
      if (crossings.length % 2 === 1) luminance[y * width + x] = 0;
    }
  }
  return new RGBLuminanceSource(luminance, width, rows * scale);
}
function corners(ring: string): { x: number; y: number }[] {
  const bar = /^M(\S+) (\S+)h(\S+)v1h\S+$/.exec(ring);
  if (bar) {
    const [x, y, wide] = [Number(bar[1]), Number(bar[2]), Number(bar[3])];
    return [{ x, y }, { x: x + wide, y }, { x: x + wide, y: y + 1 }, { x, y: y + 1 }]; // prettier-ignore
  }
  return ring
    .slice(1)
    .split('L')
    .map((point) => point.split(' ').map(Number))
    .map(([x = NaN, y = NaN]) => ({ x, y }));
}

describe('codes', () => {
  const tickets = ['26-0147', '24-0001', '31-9999', '26-123456'];

  it.each(tickets)('%s is readable as a barcode', (ticket) => {
    const bitmap = new BinaryBitmap(new HybridBinarizer(pixels(barsOf(ticket), 3, 20)));
    const result = new Code128Reader().decode(bitmap);
    expect(result.getText()).toBe(ticket);
    expect(result.getBarcodeFormat()).toBe(BarcodeFormat.CODE_128);
  });

  it.each(tickets)('%s is readable as a QR code, of the smallest version', (ticket) => {
    const code = squareOf(ticket);
    expect(code.width).toBe(21);
    const bitmap = new BinaryBitmap(new HybridBinarizer(pixels(code, 6, 0)));
    expect(new QRCodeReader().decode(bitmap).getText()).toBe(ticket);
  });

  it('have the bar count that layouts assume', () => {
    expect(barsOf('26-0147').width + 2 * barsOf('26-0147').quiet).toBe(121);
  });
});

describe('the number of copies', () => {
  it.each([
    ['0', 0],
    [' 12 ', 12],
    ['200', 200],
    ['201', null],
    ['-1', null],
    ['1.5', null],
    ['', null],
  ])('reads %j as %j', (typed, n) => expect(copiesTyped(typed)).toBe(n));
});
