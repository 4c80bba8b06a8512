import { describe, it } from 'vitest';
import {
  chiSquareCdf,
  chiSquareQuantile,
  normalCdf,
  normalQuantile,
  tQuantile,
} from '../../src/core/distributions.ts';
import { check } from './record.ts';

describe('Student t, upper critical values', () => {
  const source = 'NIST/SEMATECH e-Handbook 1.3.6.7.2, table of upper critical values of t';
  const shares = [0.9, 0.95, 0.975, 0.99, 0.995];
  const table: Record<number, number[]> = {
    1: [3.078, 6.314, 12.706, 31.821, 63.657],
    2: [1.886, 2.92, 4.303, 6.965, 9.925],
    5: [1.476, 2.015, 2.571, 3.365, 4.032],
    10: [1.372, 1.812, 2.228, 2.764, 3.169],
    18: [1.33, 1.734, 2.101, 2.552, 2.878],
    20: [1.325, 1.725, 2.086, 2.528, 2.845],
    30: [1.31, 1.697, 2.042, 2.457, 2.75],
    60: [1.296, 1.671, 2.0, 2.39, 2.66],
    100: [1.29, 1.66, 1.984, 2.364, 2.626],
  };
  it.each(Object.entries(table))('df = %s', (df, expected) => {
    const got = shares.map((p) => tQuantile(p, Number(df)));
    check({ name: `t, df ${df}, ${shares.join(' ')}`, source, expected, got, tolerance: 0.0006 });
  });

  it('far out, where the table in print is off by up to 0.004', () => {
    const degrees = [1, 2, 5, 10, 18, 20, 30, 60, 100];
    const expected = [318.313, 22.327, 5.893, 4.143, 3.61, 3.552, 3.385, 3.232, 3.174];
    const got = degrees.map((df) => tQuantile(0.999, df));
    check({ name: `t at .999, df ${degrees.join(' ')}`, source, expected, got, tolerance: 0.005 });
  });
});

it('normal quantiles: the last row of the t table', () => {
  check({
    name: 'normal quantiles at .9 .95 .975 .99 .995 .999',
    source: 'NIST/SEMATECH e-Handbook 1.3.6.7.2, row of infinite degrees of freedom',
    expected: [1.282, 1.645, 1.96, 2.326, 2.576, 3.09],
    got: [0.9, 0.95, 0.975, 0.99, 0.995, 0.999].map(normalQuantile),
    tolerance: 0.0006,
  });
});

it('areas under the normal curve', () => {
  check({
    name: 'normal distribution below 0, 1, 1.96, 3 and -1',
    source: 'NIST/SEMATECH e-Handbook 1.3.6.7.1 (from memory; the table lists the area from 0 to z)',
    expected: [0.5, 0.84134, 0.975, 0.99865, 0.15866],
    got: [0, 1, 1.96, 3, -1].map(normalCdf),
    tolerance: 0.00001,
  });
});

describe('chi-square, upper critical values', () => {
  const source = 'NIST/SEMATECH e-Handbook 1.3.6.7.4, upper critical values of chi-square (from memory)';
  const table: Record<number, number[]> = {
    1: [2.706, 3.841, 5.024, 6.635],
    2: [4.605, 5.991, 7.378, 9.21],
    5: [9.236, 11.07, 12.833, 15.086],
    10: [15.987, 18.307, 20.483, 23.209],
    30: [40.256, 43.773, 46.979, 50.892],
    100: [118.498, 124.342, 129.561, 135.807],
  };
  it.each(Object.entries(table))('df = %s', (df, expected) => {
    const got = [0.9, 0.95, 0.975, 0.99].map((p) => chiSquareQuantile(p, Number(df)));
    check({ name: `chi-square, df ${df}, .9 .95 .975 .99`, source, expected, got, tolerance: 0.0006 });
  });

  it.each(Object.entries(table))('the share below, df = %s', (df, xs) => {
    const got = xs.map((x) => chiSquareCdf(x, Number(df)));
    const name = `chi-square below ${xs.join(' ')}, df ${df}`;
    check({ name, source, expected: [0.9, 0.95, 0.975, 0.99], got, tolerance: 0.0001 });
  });
});
