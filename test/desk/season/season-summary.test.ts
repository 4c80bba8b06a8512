import { expect, it } from 'vitest';
import { summarise } from '../../../src/core/yield/yield.ts';
import { summaryKey, summariseSeason } from '../../../src/desk/learning/season-summary.ts';

/** Raise `SUMMARY_VERSION` together with what stands here: a summary kept by an older program must not be read as one of these. */
it('ignores a summary of another version', () => {
  const group = { species: 'elk', brought: 'skinned' } as const;
  const parts = { bone: 22_000, sinew: 10_000, damage: 0 };
  const [cell] = Object.values(summarise([{ hangingGrams: 100_000, takeHomeGrams: 60_000, parts, group }]));
  expect(cell?.splits.damage).toEqual({ none: 1, n: 0, sum: 0, squares: 0 });
  expect(Object.keys(cell?.pairs ?? {})).toEqual(['takeHome', 'bone', 'sinew']);
  expect(summaryKey([])).toMatch(/^5-/);
});

it('keeps the sums of the sexes separate, so that each is compared with its own', () => {
  const taught = (['male', 'female', 'unknown'] as const).map((sex) => ({
    observation: {
      hangingGrams: 100_000,
      takeHomeGrams: 59_000,
      group: { species: 'elk', brought: 'whole' as const, sex },
    },
    shares: { meat: 0.59 },
    cutOff: null,
    leftOut: false,
  }));
  const { shares, sums } = summariseSeason(taught);
  expect(Object.keys(shares)).toEqual(['elk/carcass/male', 'elk/carcass/female', 'elk/carcass/unknown']);
  expect(Object.values(sums).map(({ group }) => group.sex)).toEqual(['male', 'female', 'unknown']);
});
