/** Whether the build is older than the source, and how to build. */
import { spawn } from 'child_process';
import fs from 'fs';
import path from 'path';

const SOURCES = ['src', 'electron', 'resources', 'electron.vite.config.ts', 'package-lock.json'];
/** One output file of each part of a build; the window is built last. */
const BUILT = ['out/main/main.js', 'out/main/serve.js', 'out/preload/preload.cjs', 'out/renderer/index.html'];

/** True when a built file is missing or older than the newest source file. */
export function buildNeeded(root) {
  const built = BUILT.map((file) => path.join(root, file));
  if (!built.every((file) => fs.existsSync(file))) return true;
  const oldestBuilt = Math.min.apply(
    null,
    built.map((file) => fs.statSync(file).mtimeMs),
  );
  return SOURCES.some((source) => newest(path.join(root, source)) > oldestBuilt);
}

function newest(place) {
  if (!fs.existsSync(place)) return 0;
  const found = fs.statSync(place);
  if (!found.isDirectory()) return found.mtimeMs;
  return fs.readdirSync(place).reduce((latest, name) => Math.max(latest, newest(path.join(place, name))), 0);
}

/** Builds with the project's own tool; `output` is its output. */
export function build(root, node) {
  const tool = path.join(root, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js');
  if (!fs.existsSync(tool)) {
    return Promise.resolve({
      ok: false,
      output: 'The packages are missing. Run "npm ci" in ' + root + ' first.',
    });
  }
  return new Promise((resolve) => {
    let output = '';
    const child = spawn(node, [tool, 'build'], { cwd: root });
    child.stdout.on('data', (text) => (output += text));
    child.stderr.on('data', (text) => (output += text));
    child.on('error', (error) => resolve({ ok: false, output: String(error) }));
    child.on('close', (code) => resolve({ ok: code === 0, output }));
  });
}
