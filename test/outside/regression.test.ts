import { describe, it } from 'vitest';
import { fitLine } from '../../src/core/regression.ts';
import { check } from './record.ts';

/*
 * Of the NIST linear data sets only Norris is a straight line with an intercept; the others are brought to `fitLine`
 * in `regression-nist.test.ts`. NoInt1's points are used below in another way: they lie exactly on y = x + 70.
 */
describe('NIST StRD Norris', () => {
  const source = 'NIST Statistical Reference Datasets, linear regression: Norris, certified values';
  const pairs = `
    0.1 0.2; 338.8 337.4; 118.1 118.2; 888.0 884.6; 9.2 10.1; 228.1 226.5; 668.5 666.3; 998.5 996.3;
    449.1 448.6; 778.9 777.0; 559.2 558.2; 0.3 0.4; 0.1 0.6; 778.1 775.5; 668.8 666.9; 339.3 338.0;
    448.9 447.5; 10.8 11.6; 557.7 556.0; 228.3 228.1; 998.0 995.8; 888.8 887.6; 119.6 120.2; 0.3 0.3;
    0.6 0.3; 557.6 556.8; 339.3 339.1; 888.0 887.2; 998.5 999.0; 778.9 779.0; 10.2 11.1; 117.6 118.3;
    228.9 229.2; 668.4 669.1; 449.2 448.9; 0.2 0.5`;
  const rows = pairs.split(';').map((pair) => pair.trim().split(' ').map(Number));
  const line = fitLine(
    rows.map(([, x]) => x as number),
    rows.map(([y]) => y as number),
  );

  it.each([
    ['intercept', -0.262323073774029, line.intercept],
    ['slope', 1.00211681802045, line.slope],
    ['standard error of the intercept', 0.232818234301152, line.interceptSe],
    ['standard error of the slope', 0.429796848199937e-3, line.slopeSe],
    ['residual standard deviation', 0.884796396144373, line.residualSd],
    ['R squared', 0.999993745883712, line.rSquared],
  ])('%s', (name, expected, got) => {
    check({ name: `Norris: ${name}`, source, expected, got, digits: 11 });
  });
});

it('exact line', () => {
  const xs = Array.from({ length: 11 }, (_, i) => 60 + i);
  const line = fitLine(
    xs,
    xs.map((x) => x + 70),
  );
  check({
    name: 'points of NoInt1 with an intercept: intercept, slope, R squared',
    source: 'NIST Statistical Reference Datasets, NoInt1: its data are y = x + 70',
    expected: [70, 1, 1],
    got: [line.intercept, line.slope, line.rSquared],
    digits: 12,
  });
});

describe('range of a new point: rocket propellant', () => {
  const book = 'Montgomery, Peck & Vining, Introduction to Linear Regression Analysis, Example 2.7';
  const age = [15.5, 23.75, 8, 17, 5.5, 19, 24, 2.5, 7.5, 11, 13, 3.75, 25, 9.75, 22, 18, 6, 12.5, 2, 21.5];
  const strength = [
    2158.7, 1678.15, 2316, 2061.3, 2207.5, 1708.3, 1784.7, 2575, 2357.9, 2256.7, 2165.2, 2399.55, 1779.8,
    2336.75, 1765.3, 2053.5, 2414.4, 2200.5, 2654.2, 1753.7,
  ];

  it('from the raw data', () => {
    const { low, high } = fitLine(age, strength).predict(10, 0.95);
    check({
      name: 'propellant, 95 % range at age 10, raw data',
      source: `${book} (raw data from memory; the book rounds midway)`,
      expected: [2048.32, 2464.32],
      got: [low, high],
      tolerance: 0.2,
    });
  });

  /** Points made to have the book's own summary figures: n, mean, Sxx, residual mean square, line at 10. */
  it('from the summary figures of the book', () => {
    const [n, xBar, sxx, meanSquare, at10] = [20, 13.3625, 1106.56, 9244.59, 2256.32];
    const spread = Math.sqrt(sxx / n);
    const noise = Math.sqrt((meanSquare * (n - 2)) / n);
    // Four corners of a square, five times: x offsets ±spread, residuals ±noise, uncorrelated with x.
    const corners = Array.from({ length: n }, (_, i) => ({ right: i % 2 === 0, up: i % 4 < 2 }));
    const xs = corners.map(({ right }) => xBar + (right ? spread : -spread));
    const ys = corners.map(({ up }, i) => at10 - 37 * ((xs[i] as number) - 10) + (up ? noise : -noise));
    const { mean, low, high } = fitLine(xs, ys).predict(10, 0.95);
    check({
      name: 'propellant, 95 % range at age 10, summary figures',
      source: book,
      expected: [2256.32, 2048.32, 2464.32],
      got: [mean, low, high],
      tolerance: 0.02,
    });
  });
});
