import { setImmediate } from 'node:timers/promises';

/** A slice of work, ms: a call that comes meanwhile waits no longer than a few of them. */
const SLICE_MS = 15;

/**
 * Carries out steps one after the other; between two of them other calls have their turn. It is for steps that look up what
 * is kept afterwards: an answer put together right after them, in one go, finds it at hand and is of one moment.
 */
export async function runInSlices(steps: readonly (() => unknown)[]): Promise<void> {
  for (const step of steps) {
    step();
    await setImmediate();
  }
}

/**
 * What `work` makes of each item, in order. After each slice other calls have their turn, so what is worked on must not be
 * what they change.
 */
export async function mapInSlices<T, R>(items: Iterable<T>, work: (item: T) => R): Promise<R[]> {
  const made: R[] = [];
  let until = performance.now() + SLICE_MS;
  for (const item of items) {
    made.push(work(item));
    if (performance.now() < until) continue;
    await setImmediate();
    until = performance.now() + SLICE_MS;
  }
  return made;
}
