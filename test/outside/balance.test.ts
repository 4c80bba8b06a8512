import { describe, it } from 'vitest';
import { reconcile, type Flow } from '../../src/core/balance.ts';
import { criticalZ } from '../../src/core/balance-suspects.ts';
import { check } from './record.ts';

const one = (id: string, from: string | null, to: string | null, grams: number | null, sd = 1): Flow => ({
  id,
  from,
  to,
  grams,
  sd,
});

describe('heat exchanger with by-pass', () => {
  const book =
    'Narasimhan & Jordache, Data Reconciliation and Gross Error Detection (2000), heat exchanger with by-pass';
  const computed = `${book}: readings and balances; values computed exactly from x = y - VA'(AVA')⁻¹Ay`;
  const ends = [
    [null, 'splitter'],
    ['splitter', 'exchanger'],
    ['splitter', 'valve'],
    ['exchanger', 'mixer'],
    ['valve', 'mixer'],
    ['mixer', null],
  ] as const;
  const readings = [101.91, 64.45, 34.65, 64.2, 36.44, 98.88];
  const nodes = ['splitter', 'exchanger', 'valve', 'mixer'];
  const flows = ends.map(([from, to], i) => one(`${i + 1}`, from, to, readings[i] as number));
  const result = reconcile({ nodes, flows });
  const list = <Key extends 'grams' | 'adjusted'>(key: Key) =>
    result.flows.map((flow) => flow[key] as number);

  it('estimates', () => {
    check({
      name: 'by-pass: reconciled flows 1 to 6',
      source: `${book}: readings; reconciled table from memory, and computed exactly`,
      expected: [100.22, 64.5, 35.72, 64.5, 35.72, 100.22],
      got: list('grams'),
      tolerance: 0.005,
    });
  });
  it('adjustments, imbalances and sum of squares', () => {
    check({
      name: 'by-pass: adjustments',
      source: computed,
      expected: [-1.69, 0.05, 1.07, 0.3, -0.72, 1.34],
      got: list('adjusted'),
      tolerance: 1e-9,
    });
    check({
      name: 'by-pass: imbalance of the readings at each place',
      source: computed,
      expected: [2.81, 0.25, -1.79, 1.76],
      got: result.unclosed.map(({ grams }) => grams as number),
      tolerance: 1e-9,
    });
    check({
      name: 'by-pass: weighted sum of squares',
      source: computed,
      expected: 6.4075,
      got: result.chiSquare,
      digits: 12,
    });
  });

  it('with flows 3 to 5 unmeasured, by hand', () => {
    const open = flows.map((flow, i) => (i >= 2 && i <= 4 ? { ...flow, grams: null } : flow));
    // Only 1 and 6 check each other: both become their mean. 2 is taken as read; 4 = 2, 3 = 5 = mean - 2.
    const mean = (101.91 + 98.88) / 2;
    check({
      name: 'by-pass, flows 3, 4, 5 not measured',
      source: `${book}: network and readings; reduced by hand to the single balance 1 = 6`,
      expected: [mean, 64.45, mean - 64.45, 64.45, mean - 64.45, mean],
      got: reconcile({ nodes, flows: open }).flows.map(({ grams }) => grams as number),
      digits: 12,
    });
  });
});

it('critical values of the measurement test', () => {
  check({
    name: 'critical |z| for 1, 2, 5, 10 readings at 5 % overall',
    source:
      'Mah & Tamhane, AIChE J. 28:828 (1982): 1 - β/2 quantile, β = 1 - 0.95^(1/n); quantiles from memory of the normal table',
    expected: [1.96, 2.236, 2.569, 2.8],
    got: [1, 2, 5, 10].map((n) => criticalZ(0.05, n)),
    tolerance: 0.0015,
  });
});

it('equal scales share the gap equally; a scale three times as vague takes nine times the share', () => {
  const gap = (sds: [number, number]) =>
    reconcile({
      nodes: ['rail'],
      flows: [one('in', null, 'rail', 110, sds[0]), one('out', 'rail', null, 100, sds[1])],
    }).flows.map(({ adjusted }) => adjusted as number);
  check({
    name: 'one balance, gap of 10: shares by variance 1:1 and 9:1',
    source: 'inverse-variance weighting, closed form: adjustment of i = -gap·sᵢ²/Σs²',
    expected: [-5, 5, -9, 1],
    got: [...gap([1, 1]), ...gap([3, 1])],
    digits: 12,
  });
});
