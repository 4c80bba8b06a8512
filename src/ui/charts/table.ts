import type { ChartTable } from './story.ts';

type Plain = string | number | null;

/** A column of the table behind a chart: what the page shows, and what a saved file holds instead. */
interface Column<T> {
  head: string;
  /** Null for a column of the file alone. */
  cell: ((one: T) => string) | null;
  plain: readonly { head: string; of: (one: T) => Plain }[];
}

/** A column with the same heading on the page and in the file, unless the file needs its own, such as a unit. */
export function column<T>(
  head: string,
  cell: (one: T) => string,
  of: (one: T) => Plain = cell,
  plainHead = head,
): Column<T> {
  return { head, cell, plain: [{ head: plainHead, of }] };
}

/** One column on the page for the several figures of a range in the file, or none. */
export function ranged<T>(
  head: string,
  cell: ((one: T) => string) | null,
  plain: readonly [head: string, of: (one: T) => Plain][],
): Column<T> {
  return { head, cell, plain: plain.map(([of, value]) => ({ head: of, of: value })) };
}

/** A row for each item; `linkOf` is the link of its first cell. */
export function tableOf<T>(
  items: readonly T[],
  columns: readonly Column<T>[],
  linkOf?: (one: T) => string,
): ChartTable {
  const shown = columns.flatMap(({ head, cell }) => (cell ? [{ head, cell }] : []));
  const filed = columns.flatMap(({ plain }) => plain);
  return {
    head: shown.map(({ head }) => head),
    rows: items.map((one) => shown.map(({ cell }) => cell(one))),
    ...(linkOf ? { links: items.map(linkOf) } : {}),
    plainHead: filed.map(({ head }) => head),
    plain: items.map((one) => filed.map(({ of }) => of(one))),
  };
}
