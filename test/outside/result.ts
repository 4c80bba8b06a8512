/** A published number or list of numbers. */
export type Value = number | readonly number[];

/** How near ours must come: significant digits, or an absolute distance (0 = exact), one for all places or one each. */
export type Nearness = { digits: number; within?: never } | { within: Value; digits?: never };

/**
 * One independent published result and the computation of ours that is held against it. What one publication says of one
 * computation is one result, however many numbers it takes: a list is compared place by place and its worst place counts.
 */
export interface PublishedResult {
  /** What was computed, e.g. `Norris: intercept and slope`. */
  name: string;
  /** Who published it and where, down to the table or example. No two results share a source. */
  source: string;
  /** Whether the expected figure stands in the source itself, or was computed from inputs that stand there. */
  basis: 'stated' | 'computed';
  /** What a reader should know of the comparison: copied from memory, second-hand, a proxy. */
  note?: string;
  expected: Value;
  ours: () => Value | Promise<Value>;
  near: Nearness;
  /** The smallest mistake that would matter, and the value that it would give: it must fall outside `near`. */
  mistake: { what: string; gives: Value };
}

/**
 * A figure that the tool ships as its source has it. That the two agree shows that it was copied right and nothing more, so
 * it does not count as a result.
 */
export interface CopiedFigure {
  name: string;
  source: string;
  /** As read in the source and typed in here once more. */
  printed: Value;
  ours: () => Value;
  within: Value;
}

/** What one comparison leaves behind for the printed table. */
export type Row = { name: string; source: string; expected: Value; got: Value } & (
  | {
      kind: 'result';
      area: string;
      basis: 'stated' | 'computed';
      note: string;
      digits: number;
      asked: string;
      mistake: string;
    }
  | { kind: 'copied' }
);
