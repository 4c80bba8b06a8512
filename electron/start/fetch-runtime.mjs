/**
 * Downloads Electron's runtime, once. The transfer is ours (`download.mjs`); address, checksum, cache and unpacking
 * are Electron's own. Loaded only when a download is needed, so it may use the syntax of the program's Node.
 */
import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import { downloadArtifact } from '@electron/get';
import { download } from './download.mjs';
import { whyStopped } from './download-failure.mjs';
import { megabytes, showProgress } from './progress.mjs';

/**
 * Downloads and unpacks the runtime for the package `electron` of `root`.
 * @param {string} root the folder of `node_modules`
 * @param {string} node the executable of Node
 * @param {Pick<NodeJS.WriteStream, 'write' | 'isTTY'>} out output for progress
 * @param {{ stall?: number, pauses?: number[] }} [times] see `download`
 * @returns {Promise<string>} '' on success, else the error message
 */
export async function fetchRuntime(root, node, out, times = {}) {
  const electron = path.join(root, 'node_modules', 'electron');
  const folder = path.join(root, 'node_modules', '.cache', 'gambrel');
  const arch = archFor(process.platform, process.arch);
  const progress = showProgress(out);
  let partial = '';
  try {
    prepare(folder);
    await downloadArtifact({
      version: readJson(electron, 'package.json').version,
      artifactName: 'electron',
      platform: process.platform,
      arch,
      cacheRoot: process.env.electron_config_cache,
      checksums: readJson(electron, 'checksums.json'),
      tempDirectory: folder, // beside the partial file, so that the finished file need not be copied
      downloader: {
        download(url, target) {
          partial = path.join(folder, `${path.basename(target)}.part`);
          const onRetry = (error) => progress.note(`Trying again: ${whyStopped(error, process.env)}.`);
          return download(url, target, { partial, onProgress: progress.came, onRetry, ...times });
        },
      },
    });
  } catch (error) {
    const sentence = `The desktop runtime could not be downloaded: ${whyStopped(error, process.env)}.`;
    if (!existsSync(partial)) return sentence;
    const kept = megabytes(statSync(partial).size);
    return `${sentence} The part that was downloaded (${kept}) is kept, and the next start continues from there.`;
  } finally {
    progress.end();
  }
  rmSync(folder, { recursive: true, force: true });
  return unpack(electron, node, arch);
}

/** Electron's own rule: on an Apple processor the native runtime, also for a translated Node. */
function archFor(platform, arch) {
  const wanted = process.env.ELECTRON_INSTALL_ARCH || process.env.npm_config_arch;
  if (wanted || platform !== 'darwin' || arch !== 'x64') return wanted || arch;
  try {
    const translated = execFileSync('sysctl', ['-in', 'sysctl.proc_translated'], { encoding: 'utf8' });
    return translated.trim() === '1' ? 'arm64' : arch;
  } catch {
    return arch; // an older macOS does not know this setting, and never translates
  }
}

/** Creates the folder, and removes empty ones left by an interrupted run. */
function prepare(folder) {
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(folder))
    if (name.startsWith('electron-download-')) rmSync(path.join(folder, name), { recursive: true });
}

/** Electron's installer finds the file in the cache, verifies and unpacks it. */
function unpack(electron, node, arch) {
  return new Promise((resolve) => {
    const child = spawn(node, [path.join(electron, 'install.js')], {
      env: { ...process.env, npm_config_arch: arch },
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    let said = '';
    child.stderr.on('data', (text) => (said += text));
    const failed = (why) => resolve(`The desktop runtime could not be unpacked: ${why}`);
    child.on('error', (error) => failed(error.message));
    child.on('close', (code) => (code === 0 ? resolve('') : failed(said.trim().split('\n')[0])));
  });
}

function readJson(folder, file) {
  return JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
}
