/**
 * The one way in which an outside check compares a published value with ours: it asserts, and it leaves a row
 * behind, so that `print.ts` can show every check with its source after the run.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import type { Row, Value } from './row.ts';

/** How near `got` must be: significant digits of the published value, or an absolute distance (0 = exact). */
type Nearness = { digits: number; tolerance?: never } | { tolerance: number; digits?: never };

/** A published value and ours. A list is compared place by place; its worst place counts. */
export type Check = {
  /** What was computed, e.g. `Norris: slope`. */
  name: string;
  /** Who published the expected value and where; says so when it was copied from memory or computed. */
  source: string;
  expected: Value;
  got: Value;
} & Nearness;

/** Doubles carry no more; an exact hit counts as this many digits. */
const MOST_DIGITS = 15;
const folder = process.env.OUTSIDE_ROWS ?? fileURLToPath(new URL('../../out/outside/', import.meta.url));
/** A test file has its own copy of this module, hence its own list and its own file of rows. */
const rows: Row[] = [];

/**
 * Records the check as a row of this test file, then fails the test unless `got` is as near as asked.
 * @example check({ name: 'Norris: slope', source: 'NIST StRD', expected: 1.00211681802045, got: fit.slope, digits: 9 })
 */
export function check(one: Check): void {
  const expected = list(one.expected);
  const got = list(one.got);
  const agreeing =
    got.length === expected.length
      ? Math.min(...expected.map((value, i) => digitsAgreeing(value, got[i] as number)))
      : 0;
  rows.push({
    file: currentFile(),
    name: one.name,
    source: one.source,
    expected: one.expected,
    got: one.got,
    digits: agreeing,
    asked: one.digits === undefined ? `within ${one.tolerance}` : `${one.digits} digits`,
  });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${currentFile()}.json`), JSON.stringify(rows, null, 1));

  expect(got, `${one.name}: as many values as published`).toHaveLength(expected.length);
  if (one.digits !== undefined) {
    expect(agreeing, `${one.name}: ${one.got} against ${one.expected}`).toBeGreaterThanOrEqual(one.digits);
    return;
  }
  const farthest = Math.max(...expected.map((value, i) => Math.abs(value - (got[i] as number))));
  expect(farthest, `${one.name}: ${one.got} against ${one.expected}`).toBeLessThanOrEqual(one.tolerance);
}

/**
 * Significant digits in which `got` agrees with `expected`: minus the base-ten logarithm of the relative error
 * (McCullough, The American Statistician 52:358, 1998), of the absolute error where 0 is expected; 0 to 15.
 */
function digitsAgreeing(expected: number, got: number): number {
  if (got === expected) return MOST_DIGITS;
  const error = Math.abs(got - expected) / (expected === 0 ? 1 : Math.abs(expected));
  if (!Number.isFinite(error)) return 0;
  return Math.min(MOST_DIGITS, Math.max(0, -Math.log10(error)));
}

function list(value: Value): readonly number[] {
  return typeof value === 'number' ? [value] : value;
}

function currentFile(): string {
  const path = expect.getState().testPath;
  if (!path) throw new Error('check() was called outside a test');
  return basename(path);
}
