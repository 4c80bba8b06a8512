/**
 * Packs the program around a placeholder of Electron's runtime: the files that packaging expects, and in the program
 * file the marked place where fuses are burnt. So what is packed and how the fuses stand is real; it does not run.
 */
import { spawn } from 'node:child_process';
import { chmodSync, mkdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { SENTINEL } from '../smoke/fuses.ts';

const ROOT = resolve(import.meta.dirname, '../..');

/** As many as the runtime has; each as it is delivered, from the same page: 1 on, 0 off. */
const FUSES = '101100011';

const FILES = ['LICENSE', 'LICENSES.chromium.html', 'version', 'chrome-sandbox', 'icudtl.dat', 'resources.pak', 'chrome_100_percent.pak', 'locales/en-US.pak', 'locales/de.pak']; // prettier-ignore

/** The runtime's folder, to be given as `electronDist`. */
export function placeRuntime(folder: string): string {
  const runtime = join(folder, 'runtime');
  mkdirSync(join(runtime, 'locales'), { recursive: true });
  mkdirSync(join(runtime, 'resources'));
  for (const file of FILES) writeFileSync(join(runtime, file), '');
  const fuses = Buffer.concat([Buffer.from(SENTINEL), Buffer.from([1, FUSES.length]), Buffer.from(FUSES)]);
  for (const program of ['electron', 'electron.exe']) {
    writeFileSync(join(runtime, program), Buffer.concat([Buffer.from('a placeholder\n'), fuses]));
    chmodSync(join(runtime, program), 0o755);
  }
  return runtime;
}

/** Packs for a system into `folder`; resolves to the folder of the packed program. */
export async function pack(folder: string, system: 'linux' | 'win', arch: 'x64' | 'arm64'): Promise<string> {
  const tool = join(ROOT, 'node_modules/electron-builder/cli.js');
  const set = [
    `electronDist=${placeRuntime(folder)}`,
    `directories.output=${join(folder, 'dist')}`,
    'win.signAndEditExecutable=false',
  ];
  const args = [tool, `--${system}`, `--${arch}`, '--dir', '--config', 'electron/packaging/builder.json'];
  // The cache lies where nothing was fetched before: packing must not need anything from there.
  const env = {
    ...process.env,
    ELECTRON_BUILDER_CACHE: join(folder, 'cache'),
    ELECTRON_CACHE: join(folder, 'cache'),
  };
  const child = spawn(process.execPath, [...args, ...set.map((one) => `-c.${one}`)], { cwd: ROOT, env });
  let said = '';
  child.stdout.on('data', (text: Buffer) => (said += text.toString()));
  child.stderr.on('data', (text: Buffer) => (said += text.toString()));
  const code = await new Promise((done) => child.once('close', done));
  if (code !== 0) throw new Error(`Packing ended with ${String(code)}:\n${said}`);
  return join(folder, 'dist', `${system}${arch === 'x64' ? '' : `-${arch}`}-unpacked`);
}
