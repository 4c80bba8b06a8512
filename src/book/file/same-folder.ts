/** Whether two paths lead to the same folder, also through links, different letter case, or a trailing slash. */
import { realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';

/** Whether `path` is the folder `folder` or lies within it; neither needs to exist. */
export function isWithin(path: string, folder: string): boolean {
  const sought = [realPath(folder), markOf(folder)];
  for (let at = realPath(path); ; at = dirname(at)) {
    if (at === sought[0] || (sought[1] !== null && markOf(at) === sought[1])) return true;
    if (dirname(at) === at) return false;
  }
}

/** The path with links resolved; a missing part keeps its name, in lower case on case-insensitive systems. */
function realPath(path: string): string {
  const whole = resolve(path);
  try {
    return realpathSync.native(whole);
  } catch {
    if (dirname(whole) === whole) return whole;
    const name = basename(whole);
    return join(realPath(dirname(whole)), lettersMatter() ? name : name.toLowerCase());
  }
}

function lettersMatter(): boolean {
  return process.platform !== 'win32' && process.platform !== 'darwin';
}

/** Device and inode of a folder, or null if it does not exist. */
function markOf(path: string): string | null {
  try {
    const { dev, ino } = statSync(path, { bigint: true });
    return ino === 0n ? null : `${dev} ${ino}`;
  } catch {
    return null;
  }
}
