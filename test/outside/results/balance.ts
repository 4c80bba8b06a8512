import { reconcile, type Flow } from '../../../src/core/balance/balance.ts';
import type { PublishedResult } from '../result.ts';

const flow = (id: string, from: string | null, to: string | null, grams: number): Flow => ({
  id,
  from,
  to,
  grams,
  sd: 1,
});

const BY_PASS = [
  flow('1', null, 'splitter', 101.91),
  flow('2', 'splitter', 'exchanger', 64.45),
  flow('3', 'splitter', 'valve', 34.65),
  flow('4', 'exchanger', 'mixer', 64.2),
  flow('5', 'valve', 'mixer', 36.44),
  flow('6', 'mixer', null, 98.88),
]; // prettier-ignore

export const balances: readonly PublishedResult[] = [
  {
    name: 'heat exchanger with by-pass: reconciled flows 1 to 6',
    source: 'Narasimhan & Jordache, Data Reconciliation and Gross Error Detection (2000), heat exchanger with by-pass',
    basis: 'stated',
    note: 'readings read second-hand, the reconciled table from memory; it agrees with the exact solution',
    expected: [100.22, 64.5, 35.72, 64.5, 35.72, 100.22],
    ours: () =>
      reconcile({ nodes: ['splitter', 'exchanger', 'valve', 'mixer'], flows: BY_PASS }).flows.map(
        ({ grams }) => grams ?? NaN,
      ),
    near: { within: 0.005 },
    mistake: {
      what: 'readings weighted by their size instead of equally',
      gives: [100.008, 64.465, 35.543, 64.465, 35.543, 100.008],
    },
  },
  {
    name: 'one balance, 10 too much coming in, equal uncertainty: adjustments of import and export',
    source: 'STAN manual, Data Reconciliation, second example, https://stan2web.net/NetHelp/HTMLDocuments/DataReconciliation.htm',
    basis: 'stated',
    note: 'the page prints the adjustments; 110 and 100 stand for its drawing',
    expected: [-5, 5],
    ours: () => {
      const flows = [flow('import', null, 'process', 110), flow('export', 'process', null, 100)];
      return reconcile({ nodes: ['process'], flows }).flows.map(({ adjusted }) => adjusted ?? NaN);
    },
    near: { digits: 12 },
    mistake: { what: 'the gap shared in proportion to the readings', gives: [-1100 / 210, 1000 / 210] },
  },
]; // prettier-ignore
