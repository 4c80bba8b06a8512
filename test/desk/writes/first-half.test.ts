import { expect, it } from 'vitest';
import { TRIED } from '../tried-writes.ts';
import { describeWrites } from './of-all-writes.ts';
import { WRITING } from './trail.ts';

describeWrites(WRITING.filter((_, i) => i % 2 === 0));

it('tries what writes, and nothing else', () =>
  expect(Object.keys(TRIED).filter((name) => !WRITING.some((one) => one === name))).toEqual([]));
