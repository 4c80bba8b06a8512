import { measureWriter } from '../charts/yields/compare-words.ts';
import type { Format } from '../texts/format.ts';
import type { DrilldownOrder } from '../season-frame/season-query.ts';

/** Formats the value that animals are ordered by. */
export function valueFormatter(order: DrilldownOrder, format: Format): (value: number) => string {
  if (order === 'ticket') return String;
  if (order === 'unexplained') return (value) => format.share(value);
  if (order === 'days') return (value) => format.number(value);
  return measureWriter(order, format).value;
}
