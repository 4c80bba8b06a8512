import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addedWater, brineStrength, fromPickle, moistureProteinRatio, mostWater, proteinFatFree, shareOfMeat, yieldAtRatio,
} from '../../../src/core/curing/composition.ts'; // prettier-ignore
import { pffRule, standardFindings } from '../../../src/core/curing/standards.ts';
import { blockFat } from '../../../src/core/curing/block-fat.ts';
import { casingGrams, casingsFor } from '../../../src/core/curing/casing.ts';
import { RULES } from './data.ts';

describe('composition', () => {
  it('is computed as by hand', () => {
    expect(proteinFatFree({ protein: 0.18, fat: 0.04 })).toBeCloseTo(0.1875, 12);
    expect(addedWater({ moisture: 0.58, protein: 0.12 })).toBeCloseTo(0.1, 12);
    expect(addedWater({ moisture: 0.4, protein: 0.2 })).toBe(0);
    expect(moistureProteinRatio({ moisture: 0.24, protein: 0.32 })).toBeCloseTo(0.75, 12);
    // 72 − (1 − 0.445) × 100 = 16.5 of water on 22 of protein.
    expect(yieldAtRatio({ moisture: 0.72, protein: 0.22 }, 0.75)).toBeCloseTo(0.445, 12);
    expect(mostWater(97, 0.03)).toBeCloseTo(3, 12);
    expect(brineStrength(10, 90)).toBe(0.1);
    expect(shareOfMeat(7, 400)).toBe(0.0175);
    // 140 g of salt in 1,266 g of pickle, a tenth of 1,200 g taken up.
    expect(fromPickle(140, { pickleGrams: 1266, pickUp: 0.1, greenGrams: 1200 })).toBeCloseTo(13.27, 2);
  });

  it('of dried lean keeps its protein and has the ratio that was asked for', () => {
    const share = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(share(0.6, 0.76), share(0.18, 0.23), share(0.2, 2), (moisture, protein, ratio) => {
        const left = yieldAtRatio({ moisture, protein }, ratio);
        const water = moisture - (1 - left);
        expect(moistureProteinRatio({ moisture: water / left, protein: protein / left })).toBeCloseTo(
          ratio,
          9,
        );
      }),
    );
  });

  it('holds water to a share of the total', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), fc.double({ min: 0, max: 0.9, noNaN: true }), (others, share) => {
        const water = mostWater(others, share);
        expect(water).toBeCloseTo(share * (others + water), 3);
      }),
    ); // prettier-ignore
  });

  it.each([
    ['more than the whole', () => addedWater({ moisture: 0.9, protein: 0.2 }), 'composition.above-whole'],
    ['percent', () => proteinFatFree({ protein: 18, fat: 4 }), 'share.out-of-range'],
    ['nothing but fat', () => proteinFatFree({ protein: 0, fat: 1 }), 'composition.all-fat'],
    ['no protein', () => moistureProteinRatio({ moisture: 0.5, protein: 0 }), 'composition.no-protein'],
    ['a wetter jerky', () => yieldAtRatio({ moisture: 0.5, protein: 0.25 }, 2.1), 'composition.wetter'],
    ['only water', () => mostWater(1, 1), 'composition.all-water'],
    ['an empty brine', () => brineStrength(0, 0), 'brine.empty'],
    ['no meat', () => shareOfMeat(1, 0), 'grams.not-positive'],
    ['negative salt', () => brineStrength(-1, 5), 'grams.negative'],
    ['more salt than pickle', () => fromPickle(2, { pickleGrams: 1, pickUp: 0.1, greenGrams: 9 }), 'composition.above-whole'],
  ])('refuses %s', (_, run, code) => expect(run).toThrow(expect.objectContaining({ code }))); // prettier-ignore
});

describe('standards of identity', () => {
  it('note what is above, by fat alone and by fat with water', () => {
    const rules = (fat: number, water: number): (string | undefined)[] =>
      standardFindings('cooked-sausage', { fat, water }, RULES).map(({ rule }) => rule);
    expect(rules(0.3, 0.1)).toEqual([]);
    expect(rules(0.31, 0.09)).toEqual(['cooked-fat']);
    expect(rules(0.29, 0.12)).toEqual(['cooked-fat-water']);
    // Without an analysis of water only fat can be judged.
    expect(standardFindings('cooked-sausage', { fat: 0.31 }, RULES)).toHaveLength(1);
    expect(standardFindings('fresh-sausage', { water: 0.031 }, RULES)).toMatchObject([{ rule: 'uncooked-water', weight: 'note' }]);
    expect(standardFindings('cooked-sausage', { binder: 0.035 }, RULES)).toEqual([]);
  }); // prettier-ignore

  it('name a ham by the strictest protein-fat-free rule that it meets', () => {
    const named = (pff: number): string | undefined => pffRule('cooked-ham', pff, RULES)?.code;
    expect([0.205, 0.2049, 0.185, 0.1842, 0.17, 0.169].map(named)).toEqual([
      'ham-plain', 'ham-juices', 'ham-juices', 'ham-water', 'ham-water', undefined,
    ]); // prettier-ignore
  });
});

describe('fat of a block', () => {
  it('is that of its parts by weight, less in the raw product and more in the finished one', () => {
    // 15 lb of lean at 2 % and 10 lb of trim at 50 %: 0.3 + 5 = 5.3 lb in 25; in 26 lb raw, in 20 lb finished.
    const parts = [{ id: 'lean', fat: 0.02, grams: 15 }, { id: 'trim', fat: 0.5, fatSd: 0.05, grams: 10 }]; // prettier-ignore
    const { block, raw, finished } = blockFat(parts, { addedGrams: 1, finishedGrams: 20 });
    expect(block.fat).toBeCloseTo(5.3 / 25, 12);
    expect(raw.fat).toBeCloseTo(5.3 / 26, 12);
    expect(finished?.fat).toBeCloseTo(5.3 / 20, 12);
    // 9 in 10 of a normal of 10 × 0.05 ÷ 25.
    expect(block.high - block.fat).toBeCloseTo((1.6449 * 0.5) / 25, 5);
    expect(blockFat(parts, { addedGrams: 0 }).finished).toBeNull();
  });

  it('refuses no meat, a negative weight, and a product lighter than its fat', () => {
    const fat = [{ id: 'fat', fat: 0.9, grams: 100 }];
    expect(() => blockFat([], { addedGrams: 1 })).toThrow(expect.objectContaining({ code: 'sources.empty' }));
    expect(() => blockFat([{ id: 'a', fat: 0.1, grams: 0 }], { addedGrams: 1 })).toThrow(expect.objectContaining({ code: 'blend.no-size' }));
    expect(() => blockFat(fat, { addedGrams: -1 })).toThrow(expect.objectContaining({ code: 'grams.negative' }));
    expect(() => blockFat(fat, { addedGrams: 0, finishedGrams: 80 })).toThrow(expect.objectContaining({ code: 'finished.below-fat' }));
  }); // prettier-ignore
});

describe('casings', () => {
  it('hold a cylinder of their filled length unless they are stated to hold something else', () => {
    // π/4 × 4.5² cm² × 40.64 cm × 1.05 g = 678.7 g: 1.5 lb.
    const collagen = { name: 'collagen', diameterMm: 45, filledMm: 406.4 };
    expect(casingGrams(collagen) / 453.59237).toBeCloseTo(1.496, 3);
    expect(casingsFor(45_359, collagen)).toBe(67);
    expect(casingsFor(1360.5, { ...collagen, holdsGrams: 453.5 })).toBe(3);
    expect(() => casingGrams({ name: 'x', diameterMm: 45 })).toThrow(
      expect.objectContaining({ code: 'casing.size' }),
    );
  });
});
