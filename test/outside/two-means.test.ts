import { describe, it } from 'vitest';
import { compareMeans } from '../../src/core/two-means.ts';
import { check } from './record.ts';

describe('two means', () => {
  const nist =
    'NIST/SEMATECH e-Handbook 1.3.5.3, Two-Sample t-Test for Equal Means, miles per gallon of 249 US and 79 Japanese cars (AUTO83B.DAT); figures copied from memory';
  const cars = compareMeans(
    { n: 249, mean: 20.14458, sd: 6.4147 },
    { n: 79, mean: 30.48101, sd: 6.10771 },
    0.95,
  );
  it('cars: t without equal spreads', () =>
    check({ name: 'cars: t', source: nist, expected: -12.94627, got: cars.t, digits: 5 }));
  it('cars: degrees of freedom', () =>
    check({ name: 'cars: degrees', source: nist, expected: 136.875, got: cars.degrees, digits: 5 }));

  const student =
    'Student, Biometrika 6 (1908) 1–25, additional hours of sleep by two drugs; range as published for R’s data set "sleep" by t.test; figures copied from memory';
  const one = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
  const two = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
  const sleep = compareMeans(groupOf(one), groupOf(two), 0.95);
  it.each([
    ['difference', -1.58, sleep.difference],
    ['t', -1.8608, sleep.t],
    ['degrees', 17.776, sleep.degrees],
    ['low end of 95 %', -3.3654832, sleep.low],
    ['high end of 95 %', 0.2054832, sleep.high],
  ])('sleep: %s', (name, expected, got) => {
    check({ name: `sleep: ${name}`, source: student, expected, got, digits: 4.5 });
  });
});

function groupOf(values: readonly number[]): { n: number; mean: number; sd: number } {
  const mean = values.reduce((total, value) => total + value, 0) / values.length;
  const squares = values.reduce((total, value) => total + (value - mean) ** 2, 0);
  return { n: values.length, mean, sd: Math.sqrt(squares / (values.length - 1)) };
}
