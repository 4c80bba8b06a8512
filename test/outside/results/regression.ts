import { fitLine } from '../../../src/core/stats/regression.ts';
import type { PublishedResult } from '../result.ts';
import { sweptCoefficients } from './regression-sweep.ts';

const nist = (set: string): string =>
  `NIST Statistical Reference Datasets, linear regression: ${set}, certified values`;
/** Standard errors and residual spreads with one degree of freedom too many. */
const oneTooMany = (degrees: number, values: readonly number[], spreads: readonly number[]): number[] =>
  values.map((value, i) => (spreads.includes(i) ? value * Math.sqrt(degrees / (degrees + 1)) : value));

/** Every point and its mirror image: the line goes through the origin, all sums of squares are twice as large. */
function throughOrigin(xs: readonly number[], ys: readonly number[]): number[] {
  const line = fitLine([...xs, ...xs.map((x) => -x)], [...ys, ...ys.map((y) => -y)]);
  // 2n points less 2 leave 2(n - 1) degrees of freedom for twice the squares: the residual sd stays, Sxx doubles.
  return [line.slope, line.slopeSe * Math.SQRT2, line.residualSd, line.rSquared];
}

const NORRIS = `
  0.1 0.2; 338.8 337.4; 118.1 118.2; 888.0 884.6; 9.2 10.1; 228.1 226.5; 668.5 666.3; 998.5 996.3;
  449.1 448.6; 778.9 777.0; 559.2 558.2; 0.3 0.4; 0.1 0.6; 778.1 775.5; 668.8 666.9; 339.3 338.0;
  448.9 447.5; 10.8 11.6; 557.7 556.0; 228.3 228.1; 998.0 995.8; 888.8 887.6; 119.6 120.2; 0.3 0.3;
  0.6 0.3; 557.6 556.8; 339.3 339.1; 888.0 887.2; 998.5 999.0; 778.9 779.0; 10.2 11.1; 117.6 118.3;
  228.9 229.2; 668.4 669.1; 449.2 448.9; 0.2 0.5`;
const NORRIS_CERTIFIED = [
  -0.262323073774029, 1.00211681802045, 0.232818234301152, 0.429796848199937e-3, 0.884796396144373, 0.999993745883712,
]; // prettier-ignore

const LONGLEY = `
  60323 83.0 234289 2356 1590 107608 1947; 61122 88.5 259426 2325 1456 108632 1948;
  60171 88.2 258054 3682 1616 109773 1949; 61187 89.5 284599 3351 1650 110929 1950;
  63221 96.2 328975 2099 3099 112075 1951; 63639 98.1 346999 1932 3594 113270 1952;
  64989 99.0 365385 1870 3547 115094 1953; 63761 100.0 363112 3578 3350 116219 1954;
  66019 101.2 397469 2904 3048 117388 1955; 67857 104.6 419180 2822 2857 118734 1956;
  68169 108.4 442769 2936 2798 120445 1957; 66513 110.8 444546 4681 2637 121950 1958;
  68655 112.6 482704 3813 2552 123366 1959; 69564 114.2 502601 3931 2514 125368 1960;
  69331 115.7 518173 4806 2572 127852 1961; 70551 116.9 554894 4007 2827 130081 1962`;
/** Estimate and standard error of the six, then the residual standard deviation. */
const LONGLEY_CERTIFIED = [
  15.0618722713733, 84.9149257747669, -0.035819179292591, 0.0334910077722432, -2.02022980381683, 0.488399681651699,
  -1.03322686717359, 0.214274163161675, -0.0511041056535807, 0.22607320006937, 1829.15146461355, 455.478499142212,
  304.854073561965,
]; // prettier-ignore

const PONTIUS = `
  .11019 .21956 .32949 .43899 .54803 .65694 .76562 .87487 .98292 1.09146 1.20001 1.30822 1.41599 1.52399
  1.63194 1.73947 1.84646 1.95392 2.06128 2.16844 .11052 .22018 .32939 .43886 .54798 .65739 .76596 .87474
  .98300 1.09150 1.20004 1.30818 1.41613 1.52408 1.63159 1.73965 1.84696 1.95445 2.06177 2.16829`;
const PONTIUS_CERTIFIED = [
  0.732059160401003e-6, 0.157817399981659e-9, -0.316081871345029e-14, 0.486652849992036e-16,
];

const AGE = [15.5, 23.75, 8, 17, 5.5, 19, 24, 2.5, 7.5, 11, 13, 3.75, 25, 9.75, 22, 18, 6, 12.5, 2, 21.5];
const STRENGTH = [
  2158.7, 1678.15, 2316, 2061.3, 2207.5, 1708.3, 1784.7, 2575, 2357.9, 2256.7, 2165.2, 2399.55, 1779.8,
  2336.75, 1765.3, 2053.5, 2414.4, 2200.5, 2654.2, 1753.7,
];

const ANSCOMBE_X = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
const ANSCOMBE: readonly [xs: readonly number[], ys: readonly number[]][] = [
  [ANSCOMBE_X, [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68]],
  [ANSCOMBE_X, [9.14, 8.14, 8.74, 8.77, 9.26, 8.1, 6.13, 3.1, 9.13, 7.26, 4.74]],
  [ANSCOMBE_X, [7.46, 6.77, 12.74, 7.11, 7.81, 8.84, 6.08, 5.39, 8.15, 6.42, 5.73]],
  [
    [8, 8, 8, 8, 8, 8, 8, 19, 8, 8, 8],
    [6.58, 5.76, 7.71, 8.84, 8.47, 7.04, 5.25, 12.5, 5.56, 7.91, 6.89],
  ],
];

export const lines: readonly PublishedResult[] = [
  {
    name: 'Norris: intercept, slope, their standard errors, residual sd, R squared',
    source: nist('Norris'),
    basis: 'stated',
    expected: NORRIS_CERTIFIED,
    ours: () => {
      const rows = NORRIS.split(';').map((pair) => pair.trim().split(' ').map(Number));
      const line = fitLine(rows.map(([, x]) => x ?? NaN), rows.map(([y]) => y ?? NaN)); // prettier-ignore
      return [line.intercept, line.slope, line.interceptSe, line.slopeSe, line.residualSd, line.rSquared];
    },
    near: { digits: 11 },
    mistake: {
      what: 'n − 1 degrees of freedom instead of n − 2',
      gives: oneTooMany(34, NORRIS_CERTIFIED, [2, 3, 4]),
    },
  },
  {
    name: 'NoInt1, through the origin: slope, its standard error, residual sd, R squared',
    source: nist('NoInt1'),
    basis: 'stated',
    expected: [2.07438016528926, 0.0165289256198347, 3.56753034006338, 0.999365492298663],
    ours: () => {
      const xs = Array.from({ length: 11 }, (_, i) => 60 + i);
      return throughOrigin(xs, xs.map((x) => x + 70)); // prettier-ignore
    },
    near: { digits: 11 },
    mistake: {
      what: 'n degrees of freedom instead of n − 1',
      gives: oneTooMany(
        10,
        [2.07438016528926, 0.0165289256198347, 3.56753034006338, 0.999365492298663],
        [1, 2],
      ),
    },
  },
  {
    name: 'NoInt2, through the origin: slope, its standard error, residual sd, R squared',
    source: nist('NoInt2'),
    basis: 'stated',
    note: 'from memory; agrees with 56/77 and s² = (41 − 56²/77)/2',
    expected: [0.727272727272727, 0.0420827318078432, 0.369274472937998, 0.993348115299335],
    ours: () => throughOrigin([4, 5, 6], [3, 4, 4]),
    near: { digits: 11 },
    mistake: {
      what: 'n degrees of freedom instead of n − 1',
      gives: oneTooMany(
        2,
        [0.727272727272727, 0.0420827318078432, 0.369274472937998, 0.993348115299335],
        [1, 2],
      ),
    },
  },
  {
    name: 'Longley, six predictors swept out one by one: each coefficient and its standard error, residual sd',
    source: nist('Longley'),
    basis: 'stated',
    expected: LONGLEY_CERTIFIED,
    ours: () => {
      const rows = LONGLEY.split(';').map((row) => row.trim().split(' ').map(Number));
      const column = (at: number): number[] => rows.map((row) => row[at] ?? NaN);
      return sweptCoefficients([1, 2, 3, 4, 5, 6].map(column), column(0));
    },
    near: { digits: 9 },
    mistake: {
      what: 'one degree of freedom too many',
      gives: oneTooMany(9, LONGLEY_CERTIFIED, [1, 3, 5, 7, 9, 11, 12]),
    },
  },
  {
    name: 'Pontius, a parabola: B1, B2 and their standard errors',
    source: nist('Pontius'),
    basis: 'stated',
    expected: PONTIUS_CERTIFIED,
    ours: () => {
      const load = Array.from({ length: 40 }, (_, i) => 150000 * ((i % 20) + 1));
      return sweptCoefficients([load, load.map((x) => x * x)], PONTIUS.trim().split(/\s+/).map(Number)).slice(
        0,
        4,
      );
    },
    near: { digits: 9 },
    mistake: { what: 'one degree of freedom too many', gives: oneTooMany(37, PONTIUS_CERTIFIED, [1, 3]) },
  },
  {
    name: 'four sets of one line: intercept, slope, its standard error, R squared of each',
    source: 'Anscombe, The American Statistician 27:17 (1973), Graphs in Statistical Analysis',
    basis: 'stated',
    note: 'data and figures from memory',
    expected: ANSCOMBE.flatMap(() => [3, 0.5, 0.118, 0.667]),
    ours: () =>
      ANSCOMBE.flatMap(([xs, ys]) => {
        const { intercept, slope, slopeSe, rSquared } = fitLine(xs, ys);
        return [intercept, slope, slopeSe, rSquared];
      }),
    near: { within: ANSCOMBE.flatMap(() => [0.005, 0.0005, 0.0005, 0.001]) },
    mistake: {
      what: 'n − 1 degrees of freedom instead of n − 2',
      gives: ANSCOMBE.flatMap(() => [3, 0.5, 0.118 * Math.sqrt(0.9), 0.667]),
    },
  },
  {
    name: 'rocket propellant: line at age 10 and 95 % range of a new point, from summary figures and from raw data',
    source: 'Montgomery, Peck & Vining, Introduction to Linear Regression Analysis, Example 2.7',
    basis: 'stated',
    note: 'raw data from memory; the book rounds midway, hence the wider reach of the last two',
    expected: [2256.32, 2048.32, 2464.32, 2048.32, 2464.32],
    ours: () => {
      const raw = fitLine(AGE, STRENGTH).predict(10, 0.95);
      const { mean, low, high } = propellantBySummary();
      return [mean, low, high, raw.low, raw.high];
    },
    near: { within: [0.02, 0.02, 0.02, 0.2, 0.2] },
    mistake: {
      what: 'the line taken as known: t·s without its own uncertainty',
      gives: [2256.32, 2054.31, 2458.33, 2054.31, 2458.33],
    },
  },
];

/** Points made to have the book's own summary figures: n, mean, Sxx, residual mean square, line at 10. */
function propellantBySummary(): { mean: number; low: number; high: number } {
  const [n, xBar, sxx, meanSquare, at10] = [20, 13.3625, 1106.56, 9244.59, 2256.32];
  const spread = Math.sqrt(sxx / n);
  const noise = Math.sqrt((meanSquare * (n - 2)) / n);
  // Four corners of a square, five times: x offsets ±spread, residuals ±noise, uncorrelated with x.
  const corners = Array.from({ length: n }, (_, i) => ({ right: i % 2 === 0, up: i % 4 < 2 }));
  const xs = corners.map(({ right }) => xBar + (right ? spread : -spread));
  const ys = corners.map(({ up }, i) => at10 - 37 * ((xs[i] ?? NaN) - 10) + (up ? noise : -noise));
  return fitLine(xs, ys).predict(10, 0.95);
}
