/** Longest pause between two keys of one number, in milliseconds: fast typing needs 400. */
const HAND_MS = 700;
/** Faster than any typing; a barcode reader needs 20. */
export const READER_MS = 60;

/**
 * Collects digits typed outside any field, and returns the number when Enter follows immediately. `press` returns the
 * collected text on Enter, otherwise null. Times are milliseconds of any monotonic clock.
 */
export function makeScan(longestPauseMs = HAND_MS) {
  let text = '';
  let last = -Infinity;

  return {
    /** Whether a key pressed now would continue a number rather than start one. */
    goesOn: (at: number): boolean => text !== '' && at - last <= longestPauseMs,
    press(key: string, at: number): string | null {
      const soon = at - last <= longestPauseMs;
      last = at;
      if (key === 'Enter') {
        const done = soon ? text : '';
        text = '';
        return done.length >= 2 ? done : null;
      }
      if (/^[\d-]$/.test(key)) text = soon ? text + key : key;
      // Any other key ends the number: between options a person may press Tab; a barcode reader sends digits without
      // interruption.
      else if (key !== 'Shift') text = '';
      return null;
    },
  };
}
