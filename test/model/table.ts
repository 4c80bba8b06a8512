/** A table of the book beside what the model has of it. */
import type { Shop } from './shop.ts';

export type Row = Record<string, unknown>;

export interface Table {
  name: string;
  sql: string;
  /** The rows as the model has them, in the order of the first column. */
  model: (shop: Shop) => Row[];
}

export const flag = (is: boolean): number => (is ? 1 : 0);
