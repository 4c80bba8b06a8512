import { describe, it } from 'vitest';
import { individualsChart } from '../../src/core/control-chart.ts';
import { check } from './record.ts';

describe('individuals chart', () => {
  const source = 'NIST/SEMATECH e-Handbook 6.3.2.2, Individuals Control Charts, flowrate example';
  const chart = individualsChart([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
  it.each([
    ['centre line', 50.81, chart.centre],
    ['mean moving range', 1.8778, chart.meanMovingRange],
    ['upper limit', 55.8041, chart.upper],
    ['lower limit', 45.8159, chart.lower],
  ])('%s', (name, expected, got) => {
    check({ name: `flowrate: ${name}`, source, expected, got, tolerance: 0.00005 });
  });
  it('all within', () => {
    check({
      name: 'flowrate: values outside the limits',
      source,
      expected: 0,
      got: chart.outside.length,
      tolerance: 0,
    });
  });
});
