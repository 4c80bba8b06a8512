import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { BrowserContext } from 'playwright-core';
import { build, loadConfigFromFile, type UserConfig } from 'vite';

const ROOT = resolve(import.meta.dirname, '../../..');

/** Builds the window as a developer has it, with the page of sample parts, into a folder of its own. */
export async function buildDevelopmentWindow(): Promise<string> {
  const env = { command: 'build', mode: 'development' } as const;
  const loaded = await loadConfigFromFile(env, join(ROOT, 'electron.vite.config.ts'));
  const { renderer } = loaded?.config as unknown as { renderer: UserConfig };
  const outDir = mkdtempSync(join(tmpdir(), 'gambrel-samples-'));
  await build({
    ...renderer,
    configFile: false,
    mode: 'development',
    logLevel: 'error',
    root: join(ROOT, 'src/ui'),
    base: './',
    build: { ...renderer.build, outDir, minify: false },
  });
  return outDir;
}

/** Gives pages of this context the scripts and styles of `folder`, on whatever address the desk answers. */
export async function serveWindowFrom(context: BrowserContext, folder: string): Promise<void> {
  await context.route(
    ({ pathname }) => pathname === '/' || pathname.startsWith('/assets/'),
    (route) => {
      const { pathname } = new URL(route.request().url());
      return route.fulfill({ path: join(folder, pathname === '/' ? 'index.html' : pathname) });
    },
  );
}
