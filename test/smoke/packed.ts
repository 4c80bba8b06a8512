/** The program as people install it, packed around the real runtime, and driven through its window. */
import { spawn } from 'node:child_process';
import { dirname, join, resolve } from 'node:path';
import { _electron, type ElectronApplication, type Page } from 'playwright-core';
import { installedRuntime } from '../../electron/start/runtime.mjs';
import { displayWords } from './display.ts';
import { isVisible } from './in-main.ts';

const ROOT = resolve(import.meta.dirname, '../..');
/** Longest that a window may take to stand on the screen, ms. */
export const SOON = 10_000;

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
  /** From the start to the window on the screen, ms. */
  visibleAfter: number;
}

/** What every start is told: a folder of its own, so that it meets no installed Gambrel, and the display. */
export function ownWords(folder: string): string[] {
  return [`--user-data-dir=${join(folder, 'own')}`, ...displayWords()];
}

export function startWords(folder: string, book: string): string[] {
  return [...ownWords(folder), '--book', book];
}

/** Starts the program with its sandbox on (the driver would switch it off) and waits for its window. */
export async function start(program: string, args: readonly string[]): Promise<Running> {
  const began = Date.now();
  const app = await _electron.launch({ executablePath: program, args: [...args], chromiumSandbox: true });
  const page = await app.firstWindow();
  while (!(await app.evaluate(isVisible)) && Date.now() - began < 2 * SOON) await page.waitForTimeout(50);
  const visibleAfter = Date.now() - began;
  await page.waitForLoadState('load');
  return { app, page, visibleAfter };
}
