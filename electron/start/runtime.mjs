/** Whether the desktop runtime can run here, and where it is. */
import fs from 'fs';
import path from 'path';

/** Why no window can open here, whatever is installed; '' if nothing prevents it. */
export function hindrance(platform, env, uid) {
  if (platform !== 'linux') return '';
  if (!env.DISPLAY && !env.WAYLAND_DISPLAY) return 'There is no display, so Gambrel opens in the browser.';
  // Chromium's sandbox does not work for root, and Gambrel does not run without it.
  if (uid === 0) return 'The desktop app does not run as root, so Gambrel opens in the browser.';
  return '';
}

/** The runtime's executable, or '' if not installed. `ELECTRON_OVERRIDE_DIST_PATH` overrides the folder. */
export function installedRuntime(root, env) {
  const electron = path.join(root, 'node_modules', 'electron');
  const noted = path.join(electron, 'path.txt');
  const usual = { win32: 'electron.exe', darwin: 'Electron.app/Contents/MacOS/Electron' }[process.platform];
  const name = fs.existsSync(noted) ? fs.readFileSync(noted, 'utf8').trim() : usual || 'electron';
  const file = path.join(env.ELECTRON_OVERRIDE_DIST_PATH || path.join(electron, 'dist'), name);
  const complete = env.ELECTRON_OVERRIDE_DIST_PATH || fs.existsSync(noted); // written last, after unpacking
  return complete && fs.existsSync(file) ? file : '';
}

/** `{ path }` of the runtime, downloaded if necessary, or `{ sentence }` with the reason why there is none. */
export async function findRuntime(root, node, say) {
  const uid = process.getuid ? process.getuid() : -1;
  const sentence = hindrance(process.platform, process.env, uid);
  if (sentence) return { sentence };
  if (!installedRuntime(root, process.env) && !process.env.ELECTRON_OVERRIDE_DIST_PATH) {
    say('Downloading the desktop runtime, once (about 110 MB).');
    // Imported here and not above, because an old Node could not parse it.
    const fetching = await import('./fetch-runtime.mjs');
    const failed = await fetching.fetchRuntime(root, node, process.stdout);
    if (failed) return { sentence: failed + ' Opening in the browser instead.' };
  }
  const file = installedRuntime(root, process.env);
  return file
    ? { path: file }
    : { sentence: 'The desktop runtime is not installed, so Gambrel opens in the browser.' };
}
