import { individualsChart } from '../../../src/core/stats/control-chart.ts';
import { quantile } from '../../../src/core/stats/quantile.ts';
import { compareMeans } from '../../../src/core/stats/welch.ts';
import type { PublishedResult } from '../result.ts';

/** Digits before the point are the same in all: taken off first, so that they cost none behind it. */
function groupOf(values: readonly number[]): { n: number; mean: number; sd: number } {
  const [first = NaN] = values;
  const mean = first + values.reduce((total, value) => total + (value - first), 0) / values.length;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  return { n: values.length, mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

/** Atomic weight of silver by two instruments, less 107.868, in ten-millionths. */
const SILVER = [
  [1568, 1465, 1572, 1785, 1446, 1903, 1526, 1494, 1616, 1587, 1519, 1486, 1419, 1569, 1508, 1672, 1385, 1518, 1662, 1424, 1360, 1333, 1610, 1477],
  [1079, 1344, 1513, 1197, 1604, 1385, 1642, 1365, 1151, 1082, 1517, 1448, 1198, 1482, 1334, 1609, 1101, 1512, 1469, 1360, 1254, 1261, 1450, 1368],
] as const; // prettier-ignore
const FLOWRATE = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
const VISCOSITY = [33.75, 33.05, 34.0, 33.81, 33.46, 34.02, 33.68, 33.27, 33.49, 33.2, 33.62, 33.0, 33.54, 33.12, 33.84]; // prettier-ignore
/** Miles per gallon of 32 cars of 1974. */
const CARS = [
  21, 21, 22.8, 21.4, 18.7, 18.1, 14.3, 24.4, 22.8, 19.2, 17.8, 16.4, 17.3, 15.2, 10.4, 10.4, 14.7, 32.4, 30.4, 33.9, 21.5,
  15.5, 15.2, 13.3, 19.2, 27.3, 26, 30.4, 15.8, 19.7, 15, 21.4,
]; // prettier-ignore
const HOURS = [
  [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0],
  [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
] as const;

export const means: readonly PublishedResult[] = [
  {
    name: 'flowrate, individuals chart: centre, mean moving range, limits, values outside',
    source: 'NIST/SEMATECH e-Handbook 6.3.2.2, Individuals Control Charts, flowrate example',
    basis: 'stated',
    expected: [50.81, 1.8778, 55.8041, 45.8159, 0],
    ours: () => {
      const { centre, meanMovingRange, upper, lower, outside } = individualsChart(FLOWRATE);
      return [centre, meanMovingRange, upper, lower, outside.length];
    },
    near: { within: 0.00005 },
    mistake: { what: '2.66 in place of 3/1.128', gives: [50.81, 1.8778, 55.8049, 45.8151, 0] },
  },
  {
    name: 'viscosity of primer paint, individuals chart: centre, mean moving range, limits, values outside',
    source: 'Montgomery, Introduction to Statistical Quality Control, Example 5-5',
    basis: 'stated',
    note: 'data and figures from memory',
    expected: [33.52, 0.48, 34.8, 32.24, 0],
    ours: () => {
      const { centre, meanMovingRange, upper, lower, outside } = individualsChart(VISCOSITY);
      return [centre, meanMovingRange, upper, lower, outside.length];
    },
    near: { within: 0.005 },
    mistake: {
      what: 'limits from the standard deviation of all values',
      gives: [33.52, 0.48, 34.55, 32.5, 0],
    },
  },
  {
    name: 'miles per gallon of 32 cars: quartiles',
    source:
      'Henderson & Velleman, Biometrics 37:391 (1981); quartiles as printed for R’s data set "mtcars" by quantile',
    basis: 'stated',
    note: 'from memory',
    expected: [15.425, 19.2, 22.8],
    ours: () => [0.25, 0.5, 0.75].map((share) => quantile([...CARS].sort((a, b) => a - b), share)), // prettier-ignore
    near: { within: 0.0005 },
    mistake: {
      what: 'interpolated over n + 1, as another of the nine definitions does',
      gives: [15.275, 19.2, 22.8],
    },
  },
  {
    name: 'cars of the US and Japan: t and its degrees of freedom without equal spreads',
    source: 'NIST/SEMATECH e-Handbook 1.3.5.3, Two-Sample t-Test for Equal Means, AUTO83B.DAT',
    basis: 'stated',
    note: 'figures from memory',
    expected: [-12.94627, 136.875],
    ours: () => {
      const { t, degrees } = compareMeans(
        { n: 249, mean: 20.14458, sd: 6.4147 },
        { n: 79, mean: 30.48101, sd: 6.10771 },
        0.95,
      );
      return [t, degrees];
    },
    near: { digits: 5 },
    mistake: { what: 'the two spreads pooled', gives: [-12.62059, 326] },
  },
  {
    name: 'hours of sleep by two drugs: difference, t, degrees, 95 % range',
    source: 'Student, Biometrika 6 (1908) 1–25; results as published for R’s data set "sleep" by t.test',
    basis: 'stated',
    note: 'figures from memory',
    expected: [-1.58, -1.8608, 17.776, -3.3654832, 0.2054832],
    ours: () => {
      const { difference, t, degrees, low, high } = compareMeans(groupOf(HOURS[0]), groupOf(HOURS[1]), 0.95);
      return [difference, t, degrees, low, high];
    },
    near: { digits: 4.5 },
    mistake: { what: 'the two spreads pooled', gives: [-1.58, -1.8608, 18, -3.363874, 0.203874] },
  },
  {
    name: 'atomic weight of silver by two instruments: t squared, which is F where both have as many',
    source: 'NIST Statistical Reference Datasets, analysis of variance: AtmWtAg, certified F',
    basis: 'stated',
    note: 'data from memory',
    expected: 15.946733567793,
    ours: () => compareMeans(groupOf(SILVER[0]), groupOf(SILVER[1]), 0.95).t ** 2,
    near: { digits: 11 },
    mistake: { what: 'n in place of n − 1 in the spreads', gives: (15.946733567793 * 24) / 23 },
  },
];
