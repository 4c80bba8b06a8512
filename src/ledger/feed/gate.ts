/**
 * Lets the desk close its book while a feeder reads it in another thread. The desk cannot wait for a message then, so both look
 * at two shared numbers: whether the feeder has the book open, and whether it has to let go.
 */
const OPEN = 0;
const ENDING = 1;
/** Reading a batch takes some milliseconds; a thread that hangs must not keep the program from closing. */
const WAIT_AT_MOST = 5000;

export const newGate = (): SharedArrayBuffer => new SharedArrayBuffer(8);

/** The feeder's side. */
export interface Gate {
  /** @returns false when the book must not be opened any more */
  enter(): boolean;
  leave(): void;
}

export function gateOf(shared: SharedArrayBuffer): Gate {
  const state = new Int32Array(shared);
  const leave = (): void => {
    Atomics.store(state, OPEN, 0);
    Atomics.notify(state, OPEN);
  };
  return {
    enter() {
      // First open, then look: either this side sees the end, or the other sees that the book is open.
      Atomics.store(state, OPEN, 1);
      if (Atomics.load(state, ENDING) === 0) return true;
      leave();
      return false;
    },
    leave,
  };
}

/**
 * The desk's side: blocks until the feeder has closed the book. It must have been told to end before.
 * @returns whether it did in time
 */
export function waitUntilClosed(shared: SharedArrayBuffer, tell: () => void): boolean {
  const state = new Int32Array(shared);
  Atomics.store(state, ENDING, 1);
  tell();
  const until = Date.now() + WAIT_AT_MOST;
  while (Atomics.load(state, OPEN) === 1 && Date.now() < until)
    Atomics.wait(state, OPEN, 1, until - Date.now());
  return Atomics.load(state, OPEN) === 0;
}
