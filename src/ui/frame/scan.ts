/** Longest pause between two keys of one number, in milliseconds: a reader needs 20, a quick hand 400. */
const LONGEST_PAUSE_MS = 700;

/**
 * Collects digits typed where no field is open, and gives the number when Enter follows at once.
 * `press` returns the collected text on Enter, else null. Times are milliseconds of any steady clock.
 */
export function makeScan() {
  let text = '';
  let last = -Infinity;

  return {
    press(key: string, at: number): string | null {
      const soon = at - last <= LONGEST_PAUSE_MS;
      last = at;
      if (key === 'Enter') {
        const done = soon ? text : '';
        text = '';
        return done.length >= 2 ? done : null;
      }
      if (/^[\d-]$/.test(key)) text = soon ? text + key : key;
      // Any other key, above all Tab between numbered choices, ends the number: only a reader types it in one go.
      else if (key !== 'Shift') text = '';
      return null;
    },
  };
}
