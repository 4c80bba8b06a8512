import { it } from 'vitest';
import { apportion } from '../../src/core/apportion.ts';
import { check } from './record.ts';

it.each([
  {
    name: 'six states of New England, 25 seats',
    source: 'course handout on apportionment, coursehero.com/file/6716897',
    total: 25,
    weights: [6.3, 3.4, 1.4, 1.2, 1.0, 0.6],
    expected: [11, 6, 3, 2, 2, 1],
  },
  {
    name: 'five districts, 42 seats',
    source: 'worked problem, solvely.ai 459845938',
    total: 42,
    weights: [247000, 185000, 459000, 400000, 413000],
    expected: [6, 5, 11, 10, 10],
  },
  {
    name: 'five districts, 40 seats',
    source: 'worked problem, smartsolve.ai',
    total: 40,
    weights: [153000, 411000, 81000, 92000, 163000],
    expected: [7, 18, 4, 4, 7],
  },
])('Hamilton: $name', ({ name, source, total, weights, expected }) => {
  check({ name, source, expected, got: apportion(total, weights), tolerance: 0 });
});

/** The published table gives six states by name; the rest of the Union is one further, larger claimant. */
it('Hamilton: 1790 census, six states', () => {
  const states = [236841, 55540, 70835, 278514, 475327, 68705];
  const rest = 105 * 34437.35 - states.reduce((sum, people) => sum + people, 0);
  const shares = apportion(105, [...states, rest]);
  check({
    name: '1790 census, quotas rounded by largest remainder (CT DE GA MD MA KY)',
    source:
      'Aufmann et al., Mathematical Excursions 4.1, Excursion Exercise 2: 105 seats, divisor 34437.35 (rest of the Union taken as one claimant here)',
    expected: [7, 2, 2, 8, 14, 2],
    got: shares.slice(0, 6),
    tolerance: 0,
  });
});
