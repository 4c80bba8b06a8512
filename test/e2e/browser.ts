/** The browser of the browser tests. Without one the tests fail; they are never skipped. */
import { existsSync } from 'node:fs';
import { chromium, type Browser, type BrowserContext, type BrowserContextOptions } from 'playwright-core';
import { unpackedBrowser } from './browser-unpacked.ts';

/** Default paths of Chromium, Chrome or Edge on Linux, macOS and Windows. */
const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];
/**
 * Containers run as root, where Chromium's sandbox does not work, and only our own pages are opened. The other
 * switches keep the browser from contacting its vendor.
 */
const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** The browser that the test files of a worker share; it ends with the worker. */
let launched: Promise<Browser> | undefined;

/**
 * Opens `CHROME_PATH`, an installed browser, or the packaged one (Linux x64). Starting one takes longer than most tests, so the
 * test files of a worker share one: `close` then closes the windows that were opened through it. No two windows share storage.
 * Windows want no motion unless a test asks for it: frames of an animation cost more than what is tested.
 */
export async function openBrowser(): Promise<Browser> {
  if (process.env.VITEST === undefined) return launch();
  launched ??= launch();
  const shared = await launched;
  const opened = new Set<BrowserContext>();
  const newContext: Browser['newContext'] = async (options) => {
    const context = await shared.newContext({ reducedMotion: 'reduce', ...options });
    opened.add(context);
    context.once('close', () => opened.delete(context));
    return context;
  };
  return Object.create(shared, {
    newContext: { value: newContext },
    newPage: { value: async (options?: BrowserContextOptions) => (await newContext(options)).newPage() },
    close: { value: () => Promise.all([...opened].map((context) => context.close())) },
  }) as Browser;
}

/** A browser of its own with further switches, which its caller closes. */
export async function launch(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: await program(), args: [...ARGUMENTS, ...more] });
}

/** A browser whose storage lies in `folder` and outlives it, as that of a device does. */
export async function launchProfile(
  folder: string,
  more: readonly string[],
  options: BrowserContextOptions,
): Promise<BrowserContext> {
  const args = [...ARGUMENTS, ...more];
  return chromium.launchPersistentContext(folder, { executablePath: await program(), args, ...options });
}

async function program(): Promise<string> {
  const named = process.env.CHROME_PATH;
  if (named && !existsSync(named)) throw new Error(`CHROME_PATH names ${named}, which is not there.`);
  const installed = named ?? INSTALLED.find((file) => existsSync(file));
  if (!installed && (process.platform !== 'linux' || process.arch !== 'x64')) {
    throw new Error('No browser was found: install Chromium or Chrome, or name one with CHROME_PATH.');
  }
  // The package's own switches are not used: a single process ends with its first page, and pages that can
  // read each other are not what a shop's browser opens.
  return installed ?? unpackedBrowser();
}
