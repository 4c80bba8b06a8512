import { posix, win32 } from 'node:path';

/**
 * The default path of the shop's book: the system's folder for user data. Sources: XDG Base Directory Specification
 * 0.8 (a relative XDG_DATA_HOME is ignored); Apple, File System Programming Guide, "Application Support";
 * Microsoft, KNOWNFOLDERID FOLDERID_RoamingAppData (%APPDATA%). Example: on Linux, home `/home/ann` →
 * `/home/ann/.local/share/Gambrel/shop.gambrel`.
 */
export function usualBookPlace(
  platform: NodeJS.Platform,
  env: Readonly<Record<string, string | undefined>>,
  home: string,
): string {
  const file = ['Gambrel', 'shop.gambrel'];
  if (platform === 'win32') {
    return win32.join(env['APPDATA'] || win32.join(home, 'AppData', 'Roaming'), ...file);
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', ...file);
  const xdg = env['XDG_DATA_HOME'];
  return posix.join(xdg && posix.isAbsolute(xdg) ? xdg : posix.join(home, '.local', 'share'), ...file);
}
