import type { LabelSize } from './sizes.ts';

/** A label on its page, with its top left corner in millimeters. */
export interface Placed<T> {
  item: T;
  left: number;
  top: number;
}

/**
 * Lays labels out on pages, row by row from the top left.
 * @param used labels already removed from the first page; only a sheet has any
 * @returns one array of placed labels per page, without empty pages
 * @example sheetsOf(['a', 'b'], PACKAGE_SIZES.letter, 9) // 'a' in the last place of page 1, 'b' on page 2
 */
export function sheetsOf<T>(items: readonly T[], size: LabelSize, used = 0): Placed<T>[][] {
  const each = size.columns * size.rows;
  const skip = Math.min(Math.max(0, used), each - 1);
  const pages: Placed<T>[][] = [];
  items.forEach((item, index) => {
    const place = (index + skip) % each;
    const page = Math.floor((index + skip) / each);
    (pages[page] ??= []).push({
      item,
      left: size.left + (place % size.columns) * size.label.width,
      top: size.top + Math.floor(place / size.columns) * size.label.height,
    });
  });
  return pages;
}
