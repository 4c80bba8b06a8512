import { expect, it } from 'vitest';
import type { AnimalPage } from '../../../src/bridge/contract.ts';
import { partSaid, stageSaid } from '../../../src/ui/texts/as-typed.ts';

const bone = { stage: 'cut', part: 'bone', voided: null, tareTyped: null, typed: '12 lb 2 oz', unit: 'lb' };
const page = (...rows: object[]) => ({ weighings: rows as AnimalPage['weighings'] });

it('says a part as it was typed, if one weight without a container is all of it', () => {
  expect(partSaid(page(bone), 'bone', 'lb')).toBe('12 lb 2 oz');
  expect(partSaid(page(bone, { ...bone, voided: {}, typed: '21 lb 2 oz' }), 'bone', 'lb')).toBe('12 lb 2 oz');
  for (const rows of [[bone, bone], [{ ...bone, tareTyped: '2' }], [{ ...bone, part: 'trim' }], []])
    expect(partSaid(page(...rows), 'bone', 'lb')).toBeUndefined();
});

it.each([
  ['108 lb 2 oz', 'lb', '108 lb 2 oz'],
  ['38.4kg', 'lb', '38.4kg'],
  ['84.6 lb', 'kg', '84.6 lb'],
  ['108.1', 'lb', undefined],
  ['126 lb', 'lb', undefined],
  ['38.4 kg', 'kg', undefined],
  ['50 lb 2 oz + 58 lb', 'lb', undefined],
] as const)('says %s in a shop that works in %s as %s', (typed, unit, said) =>
  expect(stageSaid(page({ ...bone, stage: 'hanging', typed }), 'hanging', unit)).toBe(said),
);
