/** A disk with hardly any room: a small file system in memory where mounting is allowed. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface SmallDisk {
  path: string;
  remove(): void;
}

/** Mounts a disk of `kilobytes`, or gives null where this computer does not let us. */
export function smallDisk(kilobytes: number): SmallDisk | null {
  if (process.platform !== 'linux') return null;
  const path = mkdtempSync(join(tmpdir(), 'gambrel-disk-'));
  const size = `size=${kilobytes}k`;
  if (spawnSync('mount', ['-t', 'tmpfs', '-o', size, 'tmpfs', path]).status !== 0) {
    rmSync(path, { recursive: true });
    return null;
  }
  return {
    path,
    remove() {
      // Lazily: a test that failed may still have a file open.
      spawnSync('umount', ['-l', path]);
      rmSync(path, { recursive: true, force: true });
    },
  };
}
