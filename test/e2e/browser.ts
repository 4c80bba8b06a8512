import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/microsoft-edge',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:/Program Files/Google/Chrome/Application/chrome.exe',
  'C:/Program Files (x86)/Google/Chrome/Application/chrome.exe',
  'C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe',
];
/** Started as root a browser has no sandbox; the rest keeps it from looking for its maker's hosts. */
const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** A real browser: `CHROME_PATH`, an installed one, else the headless build inside an npm package. Never none. */
export async function openBrowser(): Promise<Browser> {
  const own = process.env.CHROME_PATH;
  if (own) return chromium.launch({ executablePath: own, args: QUIET });
  const installed = INSTALLED.find((path) => existsSync(path));
  if (installed) return chromium.launch({ executablePath: installed, args: QUIET });
  const { default: packed } = await import('@sparticuz/chromium');
  return chromium.launch({
    executablePath: await packed.executablePath(),
    args: [...packed.args, ...QUIET],
    headless: true,
  });
}
