import { setImmediate } from 'node:timers/promises';

/** Length of a slice of work, ms: another call waits for a few of them at most. */
const SLICE_MS = 15;

/**
 * Runs steps in sequence and yields to other calls between them. Intended for steps that fill caches: the answer
 * built right afterwards, synchronously, finds them filled and is consistent.
 */
export async function runInSlices(steps: readonly (() => unknown)[]): Promise<void> {
  for (const step of steps) {
    step();
    await setImmediate();
  }
}

/**
 * Maps items in order and yields to other calls after each slice, so the items must not be data that those calls
 * change.
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
