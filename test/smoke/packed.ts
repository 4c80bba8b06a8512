/** The program as people install it, packed around the real runtime, and driven through its window. */
import { spawn } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { _electron, type ElectronApplication, type Page } from 'playwright-core';
import { installedRuntime } from '../../electron/start/runtime.mjs';

const ROOT = resolve(import.meta.dirname, '../..');

/** Where the packed program's own file lies within what packaging writes. */
const PROGRAMS: Partial<Record<NodeJS.Platform, string>> = {
  win32: 'win-unpacked/Gambrel.exe',
  darwin: `mac${process.arch === 'arm64' ? '-arm64' : ''}/Gambrel.app/Contents/MacOS/Gambrel`,
  linux: `linux${process.arch === 'arm64' ? '-arm64' : ''}-unpacked/gambrel`,
};

/** Packs into `folder`; resolves to the program's file. One fuse stays open, because the driver comes in through it. */
export async function packReal(folder: string): Promise<string> {
  const runtime = installedRuntime(ROOT, process.env);
  const home = process.platform === 'darwin' ? resolve(dirname(runtime), '../../..') : dirname(runtime);
  const tool = join(ROOT, 'node_modules/electron-builder/cli.js');
  const set = [
    `electronDist=${home}`,
    `directories.output=${folder}`,
    'electronFuses.enableNodeCliInspectArguments=true',
  ];
  const args = [
    tool,
    '--dir',
    '--config',
    'electron/packaging/builder.json',
    ...set.map((one) => `-c.${one}`),
  ];
  const child = spawn(process.execPath, args, { cwd: ROOT, stdio: 'inherit' });
  const code = await new Promise((done) => child.once('close', done));
  if (code !== 0) throw new Error(`Packing ended with ${String(code)}`);
  return join(folder, PROGRAMS[process.platform] ?? '');
}

export interface Running {
  app: ElectronApplication;
  page: Page;
}

/** What a start is told: a book, and a folder of its own so that it meets no installed Gambrel. */
export function startWords(folder: string, book: string): string[] {
  return [`--user-data-dir=${join(folder, 'own')}`, '--book', book];
}

export async function start(program: string, folder: string, book: string): Promise<Running> {
  const app = await _electron.launch({ executablePath: program, args: startWords(folder, book) });
  const page = await app.firstWindow();
  await page.waitForLoadState('load');
  return { app, page };
}
