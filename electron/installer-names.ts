/** File names of the installers: `Gambrel-0.2.0-linux-x64.AppImage` (see `packaging/builder.json`). */
const NAME = /^Gambrel-(\d+)\.(\d+)\.(\d+)-(win|mac|linux)-.*\.(exe|dmg|AppImage|deb)$/;
const SYSTEMS: Partial<Record<NodeJS.Platform, string>> = { win32: 'win', darwin: 'mac', linux: 'linux' };

/**
 * The newest installer for this system among the file names of a folder, if newer than `version`. Example:
 * `newestInstaller(['Gambrel-0.10.0-win-x64.exe'], 'win32', '0.9.1')` → that file, version `0.10.0`.
 */
export function newestInstaller(
  names: readonly string[],
  platform: NodeJS.Platform,
  version: string,
): { file: string; version: string } | null {
  const found = names.flatMap((file) => {
    const match = NAME.exec(file);
    return match && match[4] === SYSTEMS[platform] ? { file, numbers: match.slice(1, 4).map(Number) } : [];
  });
  const newest = found.toSorted((a, b) => compare(b.numbers, a.numbers))[0];
  if (!newest || compare(newest.numbers, version.split('.').map(Number)) <= 0) return null;
  return { file: newest.file, version: newest.numbers.join('.') };
}

function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((number, index) => number !== b[index]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}
