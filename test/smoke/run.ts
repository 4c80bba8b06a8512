/**
 * `npm run smoke`: what only the real runtime can show. Where it is not installed or cannot run, says so and ends
 * with 0, as skipped: nothing is fetched for a test. With `-- --must-run` that is a failure.
 */
import { spawnSync } from 'node:child_process';
import { join, resolve } from 'node:path';
import { build } from '../../electron/start/build.mjs';
import { hindrance, installedRuntime } from '../../electron/start/runtime.mjs';

const ROOT = resolve(import.meta.dirname, '../..');

function missing(): string {
  if (!installedRuntime(ROOT, process.env))
    return 'Electron’s runtime is not installed ("npm run runtime" fetches it).';
  if (hindrance(process.platform, process.env, process.getuid?.() ?? -1))
    return 'Electron cannot run here: it needs a display and a user other than root.';
  return '';
}

const reason = missing();
if (reason) {
  console.log(`Smoke tests skipped: ${reason}`);
  process.exitCode = process.argv.includes('--must-run') ? 1 : 0;
} else {
  const built = await build(ROOT, process.execPath);
  if (!built.ok) throw new Error(built.output);
  const vitest = join(ROOT, 'node_modules/vitest/vitest.mjs');
  const args = [vitest, 'run', '--config', 'test/smoke/vitest.config.ts'];
  process.exitCode = spawnSync(process.execPath, args, { cwd: ROOT, stdio: 'inherit' }).status ?? 1;
}
