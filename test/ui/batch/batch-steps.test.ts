import { expect, it } from 'vitest';
import type { BatchPage } from '../../../src/desk/contract/contract.ts';
import { isDone, presentStep } from '../../../src/ui/batch/batch-steps.ts';

const part = { key: 'trim 1' } as BatchPage['toWeigh'][number];
const batch = (more: Partial<BatchPage>) =>
  ({ state: 'open', toWeigh: [], inGrams: 0, passes: [], fatTests: [], packages: [], ...more }) as BatchPage;

it.each([
  [{}, 'weighIn'],
  [{ toWeigh: [part], inGrams: 500 }, 'weighIn'],
  [{ inGrams: 500 }, 'pack'],
  [{ state: 'done', toWeigh: [part], inGrams: 500 }, 'pack'],
] as const)('a batch with %j needs %s next', (more, step) => {
  const one = batch(more as Partial<BatchPage>);
  expect(presentStep(one)).toBe(step);
  expect(isDone('weighIn', one)).toBe(step !== 'weighIn');
});

it('counts passes and tests as done once one is noted, and packing with the end of the batch', () => {
  const packages = [{ id: 1 }] as BatchPage['packages'];
  expect((['grind', 'test', 'pack'] as const).map((step) => isDone(step, batch({ packages })))).toEqual([
    false, false, false,
  ]); // prettier-ignore
  expect(isDone('pack', batch({ packages, state: 'done' }))).toBe(true);
  expect(isDone('grind', batch({ passes: [{ pass: 1, plate: '', tempC: null, at: '', by: '' }] }))).toBe(
    true,
  );
});
