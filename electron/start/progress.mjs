/** Shows the progress of a download in the terminal. */

const MEGABYTE = 1_000_000;
/** In a file or pipe, where a line cannot be overwritten, one line is written every so many percent. */
const STEP = 10;

/** Whole megabytes, as in `45 MB`. */
export function megabytes(bytes) {
  return `${Math.round(bytes / MEGABYTE)} MB`;
}

/**
 * @param {Pick<NodeJS.WriteStream, 'write' | 'isTTY'>} out
 * @returns `came(bytes, whole)` shows progress, `note(sentence)` writes a separate line, `end()` finishes the line
 */
export function showProgress(out) {
  let shown = '';
  let step = -1;
  const leave = () => {
    if (shown) out.write('\n');
    shown = '';
  };
  return {
    came(bytes, whole) {
      const percent = whole > 0 ? Math.floor((100 * bytes) / whole) : 0;
      const line =
        whole > 0 ? `  ${megabytes(bytes)} of ${megabytes(whole)} (${percent}%)` : `  ${megabytes(bytes)}`;
      if (out.isTTY) {
        if (line !== shown) out.write(`\r${line.padEnd(shown.length)}`);
        shown = line;
      } else if (whole > 0 && Math.floor(percent / STEP) !== step) {
        step = Math.floor(percent / STEP);
        out.write(`${line}\n`);
      }
    },
    note(sentence) {
      leave();
      out.write(`${sentence}\n`);
    },
    end: leave,
  };
}
