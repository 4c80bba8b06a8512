import * as v from 'valibot';
import type { DeskRoom } from './room.ts';

/** One thing a shop can do: an input schema and what is done with a valid input. */
export interface Procedure<S extends v.GenericSchema = v.GenericSchema, R = unknown> {
  kind: 'read' | 'write';
  input: S;
  run: (room: DeskRoom, input: v.InferOutput<S>) => R;
}

/** Answers a question. May be asynchronous (a solver); changes nothing. */
export function read<S extends v.GenericSchema, R>(
  input: S,
  run: (room: DeskRoom, input: v.InferOutput<S>) => R,
): Procedure<S, R> {
  return { kind: 'read', input, run };
}

/** Changes the book: runs in one immediate transaction, so it must be synchronous, and announces the change. */
export function write<S extends v.GenericSchema, R>(
  input: S,
  run: (room: DeskRoom, input: v.InferOutput<S>) => R extends Promise<unknown> ? never : R,
): Procedure<S, R> {
  return { kind: 'write', input, run: run as (room: DeskRoom, input: v.InferOutput<S>) => R };
}
