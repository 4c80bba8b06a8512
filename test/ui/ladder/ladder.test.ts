import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { ladderPieces, layLadder, type Rung } from '../../../src/ui/ladder/ladder.ts';

const end = (rungs: readonly Rung[]): number => Math.max(0, ...rungs.map(({ x, width }) => x + width));
const part = fc.record({
  key: fc.constantFrom('whole cuts' as const, 'trim' as const, 'bone' as const),
  grams: fc.double({ min: 1, max: 200_000, noNaN: true }),
});

describe('layLadder', () => {
  it('is one hatched rung without weights of the Table', () => {
    expect(layLadder([], 100, 400)).toEqual({
      rungs: [{ key: 'rest', x: 0, width: 400, grams: 100 }],
      baseAt: 400,
      overGrams: 0,
    });
  });

  it('lays the parts end to end and the rest last', () => {
    const { rungs, baseAt } = layLadder(
      [
        { key: 'bone', grams: 25 },
        { key: 'trim', grams: 50 },
      ],
      100,
      400,
    );
    expect(rungs.map(({ key, x, width }) => [key, x, width])).toEqual([
      ['bone', 0, 100],
      ['trim', 100, 200],
      ['rest', 300, 100],
    ]);
    expect(baseAt).toBe(400);
  });

  it('marks the animal’s weight when the parts exceed it', () => {
    const { rungs, baseAt, overGrams } = layLadder([{ key: 'bone', grams: 200 }], 100, 400);
    expect(rungs).toEqual([{ key: 'bone', x: 0, width: 400, grams: 200 }]);
    expect(baseAt).toBe(200);
    expect(overGrams).toBe(100);
  });

  it('omits a rest that is only rounding', () => {
    expect(layLadder([{ key: 'bone', grams: 99.7 }], 100, 400).rungs).toHaveLength(1);
  });

  it('draws nothing for an animal without any weight', () => {
    expect(layLadder([], 0, 400).rungs).toEqual([]);
  });

  it('stays within the bar, without overlaps, in proportion to the weights', () => {
    fc.assert(
      fc.property(
        fc.array(part, { maxLength: 8 }),
        fc.double({ min: 100, max: 300_000, noNaN: true }),
        (pieces, base) => {
          const { rungs, baseAt } = layLadder(pieces, base, 760);
          expect(end(rungs)).toBeLessThanOrEqual(760.001);
          expect(baseAt).toBeLessThanOrEqual(760.001);
          rungs.slice(1).forEach((rung, index) => {
            const before = rungs[index];
            expect(rung.x).toBeCloseTo((before?.x ?? 0) + (before?.width ?? 0), 6);
            expect(rung.width * (before?.grams ?? 0)).toBeCloseTo((before?.width ?? 0) * rung.grams, 0);
          });
        },
      ),
    );
  });
});

describe('ladderPieces', () => {
  const base = { baseGrams: 50_000, base: 'hanging' as const, restGrams: 0 };

  it('are the parts weighed at the Table if they include all take-home', () => {
    const pieces = [
      { part: 'whole cuts' as const, grams: 10_000, share: 0.2 },
      { part: 'trim' as const, grams: 12_000, share: 0.24 },
      { part: 'bone' as const, grams: 11_000, share: 0.22 },
    ];
    expect(ladderPieces({ ladder: { ...base, pieces }, takeHomeGrams: 22_000 })).toEqual([
      { key: 'whole cuts', grams: 10_000 },
      { key: 'trim', grams: 12_000 },
      { key: 'bone', grams: 11_000 },
    ]);
  });

  it('include what was weighed in packages only, so that the bar matches the take-home', () => {
    const pieces = [{ part: 'trim' as const, grams: 13_472, share: 0.27 }];
    expect(ladderPieces({ ladder: { ...base, pieces }, takeHomeGrams: 23_927 })).toEqual([
      { key: 'packed', grams: 10_455 },
      { key: 'trim', grams: 13_472 },
    ]);
  });

  it('are the packages alone for an animal cut in one go, and none before', () => {
    expect(ladderPieces({ ladder: { ...base, pieces: [] }, takeHomeGrams: 27_000 })).toEqual([
      { key: 'packed', grams: 27_000 },
    ]);
    expect(ladderPieces({ ladder: { ...base, pieces: [] }, takeHomeGrams: 0 })).toEqual([]);
  });
});
