import type { Placed } from './sheets.ts';

/**
 * How many pages in a row are alike, at the first of each such row; 0 at the others. Pages are alike that hold the same labels in
 * the same places.
 */
export function repeatsOf<T>(pages: readonly (readonly Placed<T>[])[]): number[] {
  const repeats: number[] = [];
  let first = 0;
  pages.forEach((page, at) => {
    const leader = pages[first];
    if (at > 0 && leader && alike(leader, page)) {
      repeats[first] = (repeats[first] ?? 0) + 1;
      repeats.push(0);
    } else {
      first = at;
      repeats.push(1);
    }
  });
  return repeats;
}

function alike<T>(one: readonly Placed<T>[], other: readonly Placed<T>[]): boolean {
  return (
    one.length === other.length &&
    one.every(({ item, left, top }, i) => {
      const place = other[i];
      return place !== undefined && place.item === item && place.left === left && place.top === top;
    })
  );
}
