import { expect, it } from 'vitest';
import { repeatsOf } from '../../../src/ui/paper/repeats.ts';
import { sheetsOf } from '../../../src/ui/paper/sheets.ts';
import { PACKAGE_SIZES } from '../../../src/ui/paper/sizes.ts';

const [steaks, ground] = [{ of: 'steaks' }, { of: 'ground' }];
const many = (steaksN: number, groundN: number) => [
  ...Array<typeof steaks>(steaksN).fill(steaks),
  ...Array<typeof steaks>(groundN).fill(ground),
];

it('shows one label of each kind on a roll, with its number', () => {
  const pages = sheetsOf(many(3, 2), PACKAGE_SIZES['4x3']);
  expect(repeatsOf(pages)).toEqual([3, 0, 0, 2, 0]);
});

it('shows full sheets of one kind once, and a sheet of two kinds by itself', () => {
  const pages = sheetsOf(many(24, 6), PACKAGE_SIZES.letter);
  expect(repeatsOf(pages)).toEqual([2, 0, 1]);
});

it('takes equal labels of two animals for two kinds', () => {
  const pages = sheetsOf([{ of: 'steaks' }, { of: 'steaks' }], PACKAGE_SIZES['4x3']);
  expect(repeatsOf(pages)).toEqual([1, 1]);
  expect(repeatsOf([])).toEqual([]);
});
