/** A published number or list of numbers. */
export type Value = number | readonly number[];

/** What one outside check leaves behind for the printed table. */
export interface Row {
  /** Test file, e.g. `regression.test.ts`. */
  file: string;
  name: string;
  source: string;
  expected: Value;
  got: Value;
  /** Significant digits in which the two agree, 0 to 15; of a list, those of its worst place. */
  digits: number;
  /** The nearness that the test asked for, in words. */
  asked: string;
}
