/** Distance of the plots of one story, in CSS pixels. */
export const GAP = 26;

/** How many plots of a least width stand side by side; without one, each has the whole width. */
export function columnsIn(width: number, least: number | undefined): number {
  return least === undefined ? 1 : Math.max(1, Math.floor((width + GAP) / (least + GAP)));
}
