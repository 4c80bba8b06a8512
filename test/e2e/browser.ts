/** The browser of the browser tests. Without one the tests fail; they are never skipped. */
import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';
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

/** Opens `CHROME_PATH`, an installed browser, or the packaged one (Linux x64). */
export async function openBrowser(): Promise<Browser> {
  const named = process.env.CHROME_PATH;
  if (named && !existsSync(named)) throw new Error(`CHROME_PATH names ${named}, which is not there.`);
  const installed = named ?? INSTALLED.find((file) => existsSync(file));
  if (!installed && (process.platform !== 'linux' || process.arch !== 'x64')) {
    throw new Error('No browser was found: install Chromium or Chrome, or name one with CHROME_PATH.');
  }
  // The package's own switches are not used: a single process ends with its first page, and disabled isolation is not
  // what a shop's browser has.
  // read each other are not what a shop's browser opens.
  return chromium.launch({ executablePath: installed ?? (await unpackedBrowser()), args: ARGUMENTS });
}
