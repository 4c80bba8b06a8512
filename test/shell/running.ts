/** Helpers for a running shell; all shells are ended after each test. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, vi } from 'vitest';
import { connect } from '../../src/bridge/client/index.ts';
import type { CallInput, CallName } from '../../src/bridge/contract.ts';
import { boot, clear, type Booted } from './boot.ts';
import type { MenuItem } from './double/menu.ts';

const running: Booted[] = [];
afterEach(async () => {
  vi.unstubAllGlobals();
  for (const shell of running.splice(0)) await clear(shell);
});

export async function started(more: Parameters<typeof boot>[0] = {}): Promise<Booted> {
  const shell = await boot(more);
  running.push(shell);
  return shell;
}

/** A started shell whose window has rendered. */
export async function opened(more: Parameters<typeof boot>[0] = {}): Promise<Booted> {
  const shell = await started(more);
  await expect.poll(() => shell.windows[0]?.shown, { timeout: 60_000 }).toBe(true);
  return shell;
}

export function windowOf(shell: Booted) {
  const window = shell.windows[0];
  if (!window) throw new Error('No window is open');
  return window;
}

/** The bridge as the page opens it, through preload, shell and desk; calls name the opening of its first answer. */
export async function bridgeOf(shell: Booted) {
  vi.stubGlobal('window', windowOf(shell).contents.page?.window);
  const { call, on } = await connect();
  const look = await call('shop.get', {}, null, 'en-US');
  const opening = look.ok ? look.value.opening : null;
  return {
    on,
    call: <N extends CallName>(name: N, input: CallInput<N>) => call(name, input, opening, 'en-US'),
  };
}

export function click(shell: Booted, label: string): void {
  const item = menuItems(shell).find((entry) => entry.label === label);
  if (!item?.click) throw new Error(`${label} is not in the menu`);
  item.click();
}

/** All menu items, submenus included. */
export function menuItems(shell: Booted): MenuItem[] {
  const within = (items: MenuItem[]): MenuItem[] =>
    items.flatMap((item) => [item, ...within(item.submenu ?? [])]);
  return within(shell.menu);
}

/** A stored note of the shell; null if there is none. */
export function noteOf(shell: Booted, name: string): unknown {
  const file = join(shell.folder, `${name}.json`);
  return existsSync(file) ? (JSON.parse(readFileSync(file, 'utf8')) as unknown) : null;
}

/** Stores a note for the shell. */
export function note(name: string, content: object): (folder: string) => void {
  return (folder) => writeFileSync(join(folder, `${name}.json`), JSON.stringify(content));
}
