/**
 * Lets each worker that drives a browser, and all that it starts, run on a processor of its own. Browser, desk and worker wake each
 * other all the time, and across processors that took a quarter of the work. Without `taskset` (Linux) nothing is done.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const worker = Number(process.env.VITEST_POOL_ID);
if (process.platform === 'linux' && worker > 0) pinTo(allowed(), worker);

function pinTo(processors: readonly number[], nth: number): void {
  const own = processors[(nth - 1) % processors.length];
  if (own === undefined || processors.length < 2) return;
  try {
    execFileSync('taskset', ['-a', '-c', '-p', String(own), String(process.pid)], { stdio: 'ignore' });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
}

/** The processors that the run may use: of the process that started this worker, since this one may have its own already. */
function allowed(): number[] {
  const status = readFileSync(`/proc/${process.ppid}/status`, 'utf8');
  const list = /^Cpus_allowed_list:\s*(\S+)$/m.exec(status)?.[1] ?? '';
  return list.split(',').flatMap((range) => {
    const [from = NaN, to = from] = range.split('-').map(Number);
    return Array.from({ length: to - from + 1 }, (_, i) => from + i);
  });
}
