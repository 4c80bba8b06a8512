/** `npm run runtime`: downloads the desktop runtime without starting anything, even where it could not run. */
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { fetchRuntime } from './fetch-runtime.mjs';
import { installedRuntime } from './runtime.mjs';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const failed = installedRuntime(root, process.env)
  ? ''
  : await fetchRuntime(root, process.execPath, process.stdout);
console.log(failed || `The desktop runtime is installed: ${installedRuntime(root, process.env)}`);
process.exitCode = failed ? 1 : 0;
