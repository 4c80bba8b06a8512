/** Whether the parent process is still running. */

/** Set by `npm start` to its own process id. */
const PARENT = 'GAMBREL_PARENT';
const POLL_MS = 1_000;

/**
 * Calls `gone` once when the process named by `GAMBREL_PARENT` has ended: a killed start forwards no signal.
 * Without that variable nothing is watched.
 */
export function whenParentGone(
  env: Readonly<Record<string, string | undefined>>,
  gone: () => void,
  lookEvery = POLL_MS,
): void {
  const parent = Number(env[PARENT]);
  if (!Number.isInteger(parent) || parent <= 1) return;
  const look = setInterval(() => {
    if (runs(parent)) return;
    clearInterval(look);
    gone();
  }, lookEvery);
  look.unref();
}

function runs(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
