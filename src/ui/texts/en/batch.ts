import { plural } from '../plural.ts';

/** Texts of the steps of a batch. Amounts are already formatted. */
export const batchText = {
  steps: 'Steps of this batch',
  step: { weighIn: 'Weigh in', grind: 'Grind', test: 'Test', pack: 'Pack' },
  weights: (n: number, mass: string) => `${plural(n, 'weight', 'weights')}, ${mass}`,
  passes: (n: number) => plural(n, 'pass', 'passes'),
  notNoted: 'nothing noted',
  nothingPacked: 'nothing packed yet',
  before: (n: number) => `and ${n} before it`,
};
