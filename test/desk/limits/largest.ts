/** Inputs at their limits: a valid one with each list and text in turn as long as it may be, and one longer. */
import type * as v from 'valibot';
import { boundsOf, type Bounded, type Path } from './schemas.ts';

export interface Large {
  /** Which list or text was made long, for a failure's message. */
  what: string;
  input: unknown;
}

/** The input with each list and text in turn at its most. */
export function grown(schema: v.GenericSchema, input: unknown): Large[] {
  return boundsOf(schema).all.map((one) => largeAt(input, one, one.most));
}

/** The input with each list and text in turn one longer than it may be. */
export function oversized(schema: v.GenericSchema, input: unknown): Large[] {
  return boundsOf(schema).all.flatMap((one) =>
    // The keys of a record are no place of their own in an input.
    one.path.includes('key') ? [] : [largeAt(input, one, one.most + 1)],
  );
}

function largeAt(input: unknown, { path, kind, most }: Bounded, length: number): Large {
  return { what: `${path.join('.')}: ${length} of at most ${most}`, input: put(input, path, kind, length) };
}

/** A copy of `whole` that holds a long list or text at `path`; what lies on the way and is missing is made. */
function put(whole: unknown, [at, ...rest]: Path, kind: Bounded['kind'], length: number): unknown {
  if (at === undefined) return kind === 'text' ? 'x'.repeat(length) : longList(whole, length);
  if (at === 'key') return whole;
  if (at === '*') {
    if (Array.isArray(whole)) return [put(whole[0], rest, kind, length), ...whole.slice(1)];
    if (isRecord(whole) && Object.keys(whole).length > 0) {
      const [first = '', one] = Object.entries(whole)[0] ?? [];
      return { ...whole, [first]: put(one, rest, kind, length) };
    }
    return [put(undefined, rest, kind, length)];
  }
  if (/^\d+$/.test(at)) return [put(undefined, rest, kind, length), 0].slice(0, 2);
  return {
    ...(isRecord(whole) ? whole : {}),
    [at]: put(isRecord(whole) ? whole[at] : undefined, rest, kind, length),
  };
}

/** A list of the same item over and over; a record of so many entries. */
function longList(before: unknown, length: number): unknown {
  if (isRecord(before))
    return Object.fromEntries(Array.from({ length }, (_, i) => [`k${i}`, Object.values(before)[0] ?? 'x']));
  const item: unknown = Array.isArray(before) && before.length > 0 ? before[0] : 'x';
  return Array.from({ length }, () => item);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
