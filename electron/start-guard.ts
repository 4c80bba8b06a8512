/** Whether the pages of this start would be sandboxed. */
import { app } from 'electron';

/**
 * Switches that disable the sandbox or a part of it. `ELECTRON_DISABLE_SANDBOX` sets the first; so does the
 * launcher of an AppImage where the system allows no user namespaces (`unshare -Ur` fails, as on Ubuntu 24.04).
 */
const UNGUARDED = ['no-sandbox', 'disable-seccomp-filter-sandbox', 'single-process'];

/** True for a start that must be refused. If a requested sandbox is unavailable, Chromium ends the program itself. */
export function startsUnguarded(): boolean {
  return UNGUARDED.some((name) => app.commandLine.hasSwitch(name));
}
