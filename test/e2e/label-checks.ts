/** Checks of every printed label: positions, no clipped text, height of letters. */
import type { Page } from 'playwright-core';
import { inked, inkHeight, type Picture, type Piece } from './paper.ts';

/** Minimum height of the letters on custom meat (9 CFR 316.16, 317.16), mm. */
export const MIN_LETTER = 9.525;

/** Positions of elements on the nth sheet, in millimeters, before any rotation. */
export function onSheet(page: Page, selector: string, nth = 0): Promise<Piece[]> {
  return page.evaluate(
    ([what, n]) => {
      const paper = document.querySelectorAll('.paper')[n];
      if (!paper) throw new Error(`There is no sheet ${n}`);
      const origin = paper.getBoundingClientRect();
      const mm = (px: number): number => (px * 25.4) / 96;
      return [...paper.querySelectorAll(what)].map((element) => {
        const box = element.getBoundingClientRect();
        return {
          left: mm(box.left - origin.left), top: mm(box.top - origin.top), width: mm(box.width), height: mm(box.height),
        };
      });
    },
    [selector, nth] as const,
  ); // prettier-ignore
}

/**
 * Everything outside its box, in words: lines outside their column, elements outside the label. Text is checked
 * horizontally only, because its boxes have empty space above and below; vertical errors show in the margins of the
 * image.
 */
export function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const TOLERANCE = 1.2; // pixels
    const outAcross = (box: DOMRect, of: DOMRect): boolean => box.left < of.left - TOLERANCE || box.right > of.right + TOLERANCE; // prettier-ignore
    const outDown = (box: DOMRect, of: DOMRect): boolean => box.top < of.top - TOLERANCE || box.bottom > of.bottom + TOLERANCE; // prettier-ignore
    for (const article of document.querySelectorAll('article')) {
      const words = article.querySelector('.words');
      if (!words) return ['a label without words'];
      for (const element of article.querySelectorAll('*')) {
        const home = (words !== element && words.contains(element) ? words : article).getBoundingClientRect();
        const box = element.getBoundingClientRect();
        const isText = element.tagName === 'text' || getComputedStyle(element).display === 'inline';
        if (outAcross(box, home) || (!isText && outDown(box, home)))
          found.push(`${element.tagName} ${element.textContent}`);
      }
      const walker = document.createTreeWalker(words, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const range = document.createRange();
        range.selectNodeContents(node);
        const column = words.getBoundingClientRect();
        if ([...range.getClientRects()].some((box) => outAcross(box, column)))
          found.push(node.textContent ?? '');
      }
      if (Number.parseFloat(getComputedStyle(words).fontSize) < 96 / 16 - 0.01)
        found.push('type below 1/16 in');
    }
    return found;
  });
}

/** A thin frame along the edge of a label must stay white: clipped content would reach it. */
export function edgeInk(picture: Picture, { left, top, width, height }: Piece): number {
  const wide = 0.8;
  const inset = 0.3;
  const across = { left: left + inset, width: width - 2 * inset, height: wide };
  const down = { top: top + inset, height: height - 2 * inset, width: wide };
  return Math.max(
    inked(picture, { ...across, top: top + inset }),
    inked(picture, { ...across, top: top + height - inset - wide }),
    inked(picture, { ...down, left: left + inset }),
    inked(picture, { ...down, left: left + width - inset - wide }),
  );
}

/** The letter N has flat ends: a strip of its left stem is as high as the capitals. */
export function letterHeight(picture: Picture, sale: Piece): number {
  return inkHeight(picture, { ...sale, left: sale.left, width: sale.width * 0.05 });
}
