import { expect, it } from 'vitest';
import { gather } from '../../../src/core/yield/yield.ts';
import { ruleOf } from '../../../src/desk/learning/season-taught.ts';

/** Raise `WAY` together with what stands here: a summary kept by an older program must not be read as one of these. */
it('reads no summary whose sums mean something else', () => {
  const group = { species: 'elk', brought: 'skinned' } as const;
  const parts = { bone: 22_000, sinew: 10_000, damage: 0 };
  const [cell] = Object.values(gather([{ hangingGrams: 100_000, takeHomeGrams: 60_000, parts, group }]));
  expect(cell?.splits.damage).toEqual({ none: 1, n: 0, sum: 0, squares: 0 });
  expect(Object.keys(cell?.pairs ?? {})).toEqual(['takeHome', 'bone', 'sinew']);
  expect(ruleOf([])).toMatch(/^4-/);
});
