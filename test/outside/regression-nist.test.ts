/**
 * NIST data sets that are no plain straight lines, brought to `fitLine` in ways that keep their certified values: a
 * line through the origin as the line of the points and their mirror images, several predictors by sweeping.
 */
import { describe, it } from 'vitest';
import { fitLine } from '../../src/core/regression.ts';
import { check } from './record.ts';
import { sweptCoefficient } from './regression-sweep.ts';

const certified = (set: string): string =>
  `NIST Statistical Reference Datasets, linear regression: ${set}, certified values`;

/** Every point and its mirror image: the line goes through the origin, all sums of squares are twice as large. */
function throughOrigin(xs: readonly number[], ys: readonly number[]) {
  const line = fitLine([...xs, ...xs.map((x) => -x)], [...ys, ...ys.map((y) => -y)]);
  // 2n points less 2 leave 2(n - 1) degrees of freedom for twice the squares: the residual sd stays, Sxx doubles.
  return [line.slope, line.slopeSe * Math.SQRT2, line.residualSd, line.rSquared];
}

describe('through the origin: slope, its standard error, residual sd, R squared', () => {
  it('NoInt1', () => {
    const xs = Array.from({ length: 11 }, (_, i) => 60 + i);
    check({
      name: 'NoInt1: slope, its se, residual sd, R squared',
      source: certified('NoInt1'),
      expected: [2.07438016528926, 0.0165289256198347, 3.56753034006338, 0.999365492298663],
      got: throughOrigin(xs, xs.map((x) => x + 70)), // prettier-ignore
      digits: 11,
    });
  });
  it('NoInt2', () => {
    check({
      name: 'NoInt2: slope, its se, residual sd, R squared',
      source: `${certified('NoInt2')} (from memory; agree with 56/77, s² = (41 - 56²/77)/2)`,
      expected: [0.727272727272727, 0.0420827318078432, 0.369274472937998, 0.993348115299335],
      got: throughOrigin([4, 5, 6], [3, 4, 4]),
      digits: 11,
    });
  });
});

describe('Longley: six predictors', () => {
  const source = certified('Longley');
  const table = `
    60323 83.0 234289 2356 1590 107608 1947; 61122 88.5 259426 2325 1456 108632 1948;
    60171 88.2 258054 3682 1616 109773 1949; 61187 89.5 284599 3351 1650 110929 1950;
    63221 96.2 328975 2099 3099 112075 1951; 63639 98.1 346999 1932 3594 113270 1952;
    64989 99.0 365385 1870 3547 115094 1953; 63761 100.0 363112 3578 3350 116219 1954;
    66019 101.2 397469 2904 3048 117388 1955; 67857 104.6 419180 2822 2857 118734 1956;
    68169 108.4 442769 2936 2798 120445 1957; 66513 110.8 444546 4681 2637 121950 1958;
    68655 112.6 482704 3813 2552 123366 1959; 69564 114.2 502601 3931 2514 125368 1960;
    69331 115.7 518173 4806 2572 127852 1961; 70551 116.9 554894 4007 2827 130081 1962`;
  const rows = table.split(';').map((row) => row.trim().split(' ').map(Number));
  const column = (at: number): number[] => rows.map((row) => row[at] as number);
  const predictors = [1, 2, 3, 4, 5, 6].map(column);

  it.each([
    [1, 15.0618722713733, 84.9149257747669],
    [2, -0.035819179292591, 0.0334910077722432],
    [3, -2.02022980381683, 0.488399681651699],
    [4, -1.03322686717359, 0.214274163161675],
    [5, -0.0511041056535807, 0.22607320006937],
    [6, 1829.15146461355, 455.478499142212],
  ])('B%i', (at, estimate, se) => {
    const got = sweptCoefficient(predictors, column(0), at - 1);
    const expected = [estimate, se, 304.854073561965];
    const values = [got.estimate, got.se, got.residualSd];
    check({ name: `Longley: B${at}, its se, residual sd`, source, expected, got: values, digits: 9 });
  });
});

describe('Pontius: calibration of a load cell, a parabola', () => {
  const load = Array.from({ length: 40 }, (_, i) => 150000 * ((i % 20) + 1));
  const reading = `
    .11019 .21956 .32949 .43899 .54803 .65694 .76562 .87487 .98292 1.09146 1.20001 1.30822 1.41599 1.52399
    1.63194 1.73947 1.84646 1.95392 2.06128 2.16844 .11052 .22018 .32939 .43886 .54798 .65739 .76596 .87474
    .98300 1.09150 1.20004 1.30818 1.41613 1.52408 1.63159 1.73965 1.84696 1.95445 2.06177 2.16829`;
  const ys = reading.trim().split(/\s+/).map(Number);
  const columns = [load, load.map((x) => x * x)];

  it.each([
    ['B1', 0, 0.732059160401003e-6, 0.157817399981659e-9],
    ['B2', 1, -0.316081871345029e-14, 0.486652849992036e-16],
  ])('%s', (name, which, estimate, se) => {
    const got = sweptCoefficient(columns, ys, which);
    check({
      name: `Pontius: ${name} and its se`,
      source: certified('Pontius'),
      expected: [estimate, se],
      got: [got.estimate, got.se],
      digits: 9,
    });
  });
});
