import { binomialBand } from '../../../src/core/stats/binomial-band.ts';
import { normalCdf, normalQuantile, tQuantile } from '../../../src/core/stats/distributions.ts';
import type { PublishedResult } from '../result.ts';

const T_SHARES = [0.9, 0.95, 0.975, 0.99, 0.995];
const T_TABLE: readonly [df: number, values: readonly number[]][] = [
  [1, [3.078, 6.314, 12.706, 31.821, 63.657]],
  [2, [1.886, 2.92, 4.303, 6.965, 9.925]],
  [5, [1.476, 2.015, 2.571, 3.365, 4.032]],
  [10, [1.372, 1.812, 2.228, 2.764, 3.169]],
  [18, [1.33, 1.734, 2.101, 2.552, 2.878]],
  [20, [1.325, 1.725, 2.086, 2.528, 2.845]],
  [30, [1.31, 1.697, 2.042, 2.457, 2.75]],
  [60, [1.296, 1.671, 2.0, 2.39, 2.66]],
  [100, [1.29, 1.66, 1.984, 2.364, 2.626]],
  [Infinity, [1.282, 1.645, 1.96, 2.326, 2.576]],
];
/** The row of infinite degrees is the normal distribution. */
const ts = (beyond: number): number[] =>
  T_TABLE.flatMap(([df]) =>
    T_SHARES.map((p) => (df === Infinity ? normalQuantile(p) : tQuantile(p, df + beyond))),
  );

const SIGN_TEST = [10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100];
const SIGN_CRITICAL = [1, 3, 5, 7, 9, 13, 17, 21, 26, 30, 35, 39];

export const distributions: readonly PublishedResult[] = [
  {
    name: 'Student’s t: 10 rows of .90 to .995, the last of them normal',
    source: 'NIST/SEMATECH e-Handbook 1.3.6.7.2, upper critical values of Student’s t',
    basis: 'stated',
    note: 'its column .999 is left out: in print it is off by up to 0.004',
    expected: T_TABLE.flatMap(([, values]) => values),
    ours: () => ts(0),
    near: { within: 0.0006 },
    mistake: { what: 'one degree of freedom too many', gives: ts(1) },
  },
  {
    name: 'normal distribution below 0, 1, 1.96, 3 and −1',
    source: 'NIST/SEMATECH e-Handbook 1.3.6.7.1, cumulative normal distribution',
    basis: 'stated',
    note: 'from memory; the table lists the area from 0 to z',
    expected: [0.5, 0.84134, 0.975, 0.99865, 0.15866],
    ours: () => [0, 1, 1.96, 3, -1].map(normalCdf),
    near: { within: 0.00001 },
    mistake: { what: 'an approximation good to four places', gives: [0.5, 0.8413, 0.975, 0.9987, 0.1587] },
  },
  {
    name: 'sign test, 5 % two-sided, n = 10 to 100: the largest count that is too few',
    source: 'Dixon & Mood, J. Am. Stat. Assoc. 41:557 (1946), table 1',
    basis: 'stated',
    note: 'from memory',
    expected: SIGN_CRITICAL,
    ours: () => SIGN_TEST.map((n) => binomialBand(0.5, n).low - 1),
    near: { within: 0 },
    mistake: {
      what: 'off by one: the count itself taken as within',
      gives: SIGN_CRITICAL.map((count) => count - 1),
    },
  },
];
