/** Whether the pages of this start would be shut in. */
import { app } from 'electron';

/**
 * Switches that leave a page without the sandbox or with half of it. `ELECTRON_DISABLE_SANDBOX` sets the first; so does the
 * starter of an AppImage where the system allows no user namespaces (`unshare -Ur` fails, as on Ubuntu 24.04).
 */
const UNGUARDED = ['no-sandbox', 'disable-seccomp-filter-sandbox', 'single-process'];

/** True for a start that must be refused. A sandbox that is wanted and cannot be had ends the program in Chromium itself. */
export function startsUnguarded(): boolean {
  return UNGUARDED.some((name) => app.commandLine.hasSwitch(name));
}
