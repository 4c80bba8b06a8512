/** What a process holds of the computer's memory, as Linux tells it. */
import { readFileSync } from 'node:fs';

/** Resident memory in MB. @throws Error for a process that has ended */
export function memoryMb(pid: number | undefined): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1]) / 2 ** 10;
}
