import { describe, expect, it } from 'vitest';
import { receivedPrimals, wholeCutsShare } from '../../../src/core/species/cutting.ts';

/** Fallow deer, Massey University 1985, shares normalised. */
const DEER = Object.freeze([
  { code: 'neck', share: 0.1251, pair: false },
  { code: 'shoulder', share: 0.1768, pair: true },
  { code: 'saddle', share: 0.1539, pair: false },
  { code: 'flank', share: 0.1529, pair: true },
  { code: 'haunch', share: 0.3913, pair: true },
]);
const order = (primal: string, as: string) => Object.freeze({ primal, as });

describe('wholeCutsShare', () => {
  it('sums the shares that are not ground', () =>
    expect(
      wholeCutsShare(DEER, [order('saddle', 'steaks'), order('haunch', 'roasts'), order('neck', 'grind')]),
    ).toBeCloseTo(0.1539 + 0.3913, 12));

  it('grinds primals without an order', () => expect(wholeCutsShare(DEER, [])).toBe(0));

  it('is one when everything is kept, whatever the sum of the shares', () => {
    const half = DEER.slice(0, 2);
    expect(wholeCutsShare(half, [order('neck', 'whole'), order('shoulder', 'stew')])).toBe(1);
    expect(wholeCutsShare(half, [order('neck', 'whole')])).toBeCloseTo(0.1251 / (0.1251 + 0.1768), 12);
  });

  it('keeps and grinds complementary shares', () => {
    for (let bits = 0; bits < 32; bits++) {
      const orders = (kept: boolean) =>
        DEER.map(({ code }, i) => order(code, Boolean(bits & (1 << i)) === kept ? 'roasts' : 'grind'));
      expect(wholeCutsShare(DEER, orders(true)) + wholeCutsShare(DEER, orders(false))).toBeCloseTo(1, 12);
    }
  });

  it.each([
    ['primal.unknown', DEER, [order('ham', 'roasts')]],
    ['primal.twice', DEER, [order('neck', 'roasts'), order('neck', 'grind')]],
    ['share.range', [{ code: 'neck', share: Number.NaN }], []],
    ['share.range', [{ code: 'neck', share: -0.1 }], []],
    ['share.range', [], []],
  ] as const)('refuses %s', (code, primals, orders) =>
    expect(() => wholeCutsShare(primals, orders)).toThrow(expect.objectContaining({ code })),
  );
});

describe('receivedPrimals', () => {
  it('is the whole animal without a count of pieces', () => expect(receivedPrimals(DEER, [])).toEqual(DEER));

  it('halves a pair of which one piece was received, and leaves out the rest', () =>
    expect(
      receivedPrimals(DEER, [
        { primal: 'haunch', count: 1 },
        { primal: 'saddle', count: 1 },
        { primal: 'shoulder', count: 2 },
        { primal: 'neck', count: 0 },
      ]).map(({ code, share }) => [code, share]),
    ).toEqual([
      ['shoulder', 0.1768],
      ['saddle', 0.1539],
      ['haunch', 0.3913 / 2],
    ]));

  it('limits the count to the pieces of an animal', () =>
    expect(receivedPrimals(DEER, [{ primal: 'haunch', count: 4 }])[0]?.share).toBe(0.3913));
});
