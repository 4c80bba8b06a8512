/**
 * Paper sizes of labels and tags, in millimeters; 1 in = 25.4 mm. The selection of sizes is common practice, no
 * source; the sheets are computed: ten labels, centered.
 */
export interface Box {
  width: number;
  height: number;
}

export interface LabelSize {
  /** The printer's paper: a single label, or a sheet of several. */
  page: Box;
  label: Box;
  columns: number;
  rows: number;
  /** Distance from the page's left and top edge to the first label; labels have no gaps. */
  left: number;
  top: number;
  /** The roll feeds along the label's length, so it is printed rotated by 90°. */
  turned: boolean;
}

const IN = 25.4;

export const PACKAGE_SIZES = {
  '4x3': single(4 * IN, 3 * IN),
  '4x2': single(4 * IN, 2 * IN),
  'roll-62': single(62, 100),
  letter: sheet({ width: 8.5 * IN, height: 11 * IN }, { width: 4 * IN, height: 2 * IN }),
  a4: sheet({ width: 210, height: 297 }, { width: 99, height: 56 }),
} satisfies Record<string, LabelSize>;

export const TAG_SIZES = {
  '4x6': single(4 * IN, 6 * IN),
  band: { ...single(250, 25), page: { width: 25, height: 250 }, turned: true },
} satisfies Record<string, LabelSize>;

/** Half a sheet each; the printer's own margin takes a little of them. */
export const SLIP_SIZES = {
  letter: halves({ width: 8.5 * IN, height: 11 * IN }),
  a4: halves({ width: 210, height: 297 }),
} satisfies Record<string, LabelSize>;

export type PackageSize = keyof typeof PACKAGE_SIZES;
export type TagSize = keyof typeof TAG_SIZES;

function single(width: number, height: number): LabelSize {
  const box = { width, height };
  return { page: box, label: box, columns: 1, rows: 1, left: 0, top: 0, turned: false };
}

/** One above the other. */
function halves(page: Box): LabelSize {
  const label = { width: page.width, height: page.height / 2 };
  return { page, label, columns: 1, rows: 2, left: 0, top: 0, turned: false };
}

/** Two columns of five, centered on the page. */
function sheet(page: Box, label: Box): LabelSize {
  const [columns, rows] = [2, 5];
  const left = (page.width - columns * label.width) / 2;
  const top = (page.height - rows * label.height) / 2;
  return { page, label, columns, rows, left, top, turned: false };
}
