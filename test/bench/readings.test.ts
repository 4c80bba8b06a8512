import { expect, it } from 'vitest';
import { procedures } from '../../src/desk/procedures.ts';
import { NOT_INTERACTIVE, READINGS } from './readings.ts';

it('the growth of every call that reads is measured, or is not waited for and says why', () => {
  const reads = Object.entries(procedures)
    .filter(([, { kind }]) => kind === 'read')
    .map(([name]) => name);
  const measured = new Set<string>(Object.values(READINGS).map(({ call }) => call));
  expect([...measured, ...Object.keys(NOT_INTERACTIVE)].sort()).toEqual(reads.sort());
});
