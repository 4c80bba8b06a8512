/**
 * `npm test`: the tests that drive a browser or another program, and beside them all others at a lower priority, which compute
 * while the first wait. Options for reporters say how the results of both are shown at the end; everything else goes to both.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { setPriority, tmpdir } from 'node:os';
import { join } from 'node:path';

const VITEST = join(import.meta.dirname, '../node_modules/vitest/vitest.mjs');
const EACH_FILE = join(import.meta.dirname, 'each-file.mjs');
/** Projects of vitest.config.ts. */
const SIDES = { driving: ['driving'], computing: ['computing', 'mounted', 'apart'] };
const LOW_PRIORITY = 10;

const results = mkdtempSync(join(tmpdir(), 'gambrel-results-'));

/**
 * @param {readonly string[]} args
 * @param {number} priority
 * @returns {Promise<number>} the exit code
 */
function vitest(args, priority = 0) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [VITEST, ...args], { stdio: 'inherit' });
    if (priority > 0 && child.pid !== undefined) setPriority(child.pid, priority);
    child.on('close', (code) => resolve(code ?? 1));
  });
}

const own = process.argv.slice(2);
const ofReporters = own.filter((arg) => /^--(reporter|outputFile)\b/.test(arg));
const others = own.filter((arg) => !ofReporters.includes(arg));

const codes = await Promise.all(
  Object.entries(SIDES).map(([side, projects]) =>
    vitest(
      [
        'run',
        ...projects.flatMap((project) => ['--project', project]),
        '--passWithNoTests',
        '--reporter=blob',
        `--outputFile.blob=${join(results, `${side}.json`)}`,
        `--reporter=${EACH_FILE}`,
        ...others,
      ],
      side === 'driving' ? 0 : LOW_PRIORITY,
    ),
  ),
);
const shown = await vitest([
  'run',
  `--merge-reports=${results}`,
  ...(ofReporters.length > 0 ? ofReporters : ['--reporter=minimal']),
]);
rmSync(results, { recursive: true, force: true });
process.exitCode = Math.max(...codes, shown);
