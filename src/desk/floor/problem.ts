import { basename } from 'node:path';
import type { Problem } from '../contract/problem.ts';

/** Problems whose sentence names a sum, and what the floor is told instead. */
const OTHER_CODE: Readonly<Record<string, string>> = { 'release.unpaid': 'release.unpaid-floor' };

/** A problem without sums of money and folders of the desk's computer. */
export function problemForFloor(problem: Problem): Problem {
  const code = OTHER_CODE[problem.code] ?? problem.code;
  if (!problem.with) return { ...problem, code };
  const kept = Object.entries(problem.with)
    .filter(([key]) => !key.endsWith('Minor') && key !== 'currency')
    .map(([key, value]) => [key, key === 'path' ? basename(String(value)) : value] as const);
  return { ...problem, code, with: Object.fromEntries(kept) };
}
