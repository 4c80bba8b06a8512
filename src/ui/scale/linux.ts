/** Whether the window runs on desktop Linux, where serial ports belong to a group. Android says Linux too. */
export function onLinux(agent = navigator.userAgent): boolean {
  return /\bLinux\b/.test(agent) && !/Android/.test(agent);
}
