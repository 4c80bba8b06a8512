import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkCure, type CureCheck } from '../../../src/core/curing/check.ts';
import { classOf } from '../../../src/core/curing/limits.ts';
import { cureFor } from '../../../src/core/curing/amount.ts';
import {
  BACON,
  ERYTHORBATE,
  GROUND,
  HAM,
  HUNDRED,
  LIMITS,
  NUMBER_TWO,
  OUNCE,
  PINK,
  SAUSAGE,
} from './data.ts';

const sausage: CureCheck = {
  class: 'ground',
  product: SAUSAGE,
  application: GROUND,
  cures: [{ mix: PINK, grams: 4 * OUNCE }],
};
const answer = (change: Partial<CureCheck>) => checkCure({ ...sausage, ...change }, LIMITS);
const codes = (change: Partial<CureCheck>): string[] => answer(change).findings.map(({ code }) => code);
const cured = (ounces: number, mix = PINK) => ({ cures: [{ mix, grams: ounces * OUNCE }] });

describe('a cure held against its limits', () => {
  it('lets the bag of 4 oz on 100 lb start: 156.25 ppm is a quarter of an ounce', () => {
    const { ppm, findings, mayStart } = answer({});
    expect(ppm?.nitrite).toBeCloseTo(156.25, 9);
    expect([findings, mayStart]).toEqual([[], true]);
  });

  it('stops at the first gram above the limit, and names limit and ppm', () => {
    const over = answer({ cures: [{ mix: PINK, grams: 4 * OUNCE + 1 }] });
    expect(over.mayStart).toBe(false);
    expect(over.findings).toEqual([
      {
        code: 'cure.above-limit',
        weight: 'stop',
        // (113.398 + 1) × 0.0625 ÷ 45,359.237 g
        with: { agent: 'nitrite', ppm: expect.closeTo(157.628, 3), limit: 156.25 },
        rule: 'nitrite-ground',
      },
    ]);
  });

  it('warns below 120 ppm where the product is kept refrigerated, and nowhere else', () => {
    // 3 oz: 117.1875 ppm.
    expect(codes(cured(3))).toEqual(['cure.below-minimum']);
    for (const keep of ['frozen', 'shelf-stable'] as const)
      expect(codes({ ...cured(3), product: { ...SAUSAGE, keep } })).toEqual([]);
  });

  it('does not call the shortfall of one scale step a shortfall', () => {
    const need = cureFor(120, 'nitrite', PINK, GROUND, 1);
    // 120 × 45,359.237 ÷ 10⁶ ÷ 0.0625 = 87.0897 g.
    expect(need).toEqual({ exactGrams: expect.closeTo(87.0897, 4), grams: 87, tooFine: false });
    expect(codes({ cures: [{ mix: PINK, grams: need.grams }] })).toEqual(['cure.below-minimum']);
    expect(codes({ cures: [{ mix: PINK, grams: need.grams }], stepGrams: 1 })).toEqual([]);
  });

  it('stops nitrate in a product cooked soon, and in bacon of any kind', () => {
    expect(codes({ cures: [{ mix: NUMBER_TWO, grams: 4 * OUNCE }] })).toEqual(['nitrate.cooked-soon']);
    const dry = { ...SAUSAGE, cookedSoon: false };
    // 4 oz at 4 %: 0.16 oz of nitrate in 1,600 oz, far below 2¾ oz.
    expect(answer({ ...cured(4, NUMBER_TWO), product: dry })).toMatchObject({
      ppm: { nitrate: expect.closeTo(100, 9) },
      findings: [],
    });
    const bacon = { class: 'bacon-dry', product: { ...BACON, cookedSoon: false } } as const;
    const rubbed = { method: 'rubbed', greenGrams: HUNDRED } as const;
    expect(codes({ ...bacon, application: rubbed, ...cured(4, NUMBER_TWO) })).toEqual(['nitrate.in-bacon']);
  });

  it('names a wrong class and compares with the stricter of both', () => {
    // Ground sausage that the recipe calls dry-rubbed: 8 oz are 312.5 ppm, below 625 and above 156.25.
    const found = codes({ ...cured(8), class: 'dry-rubbed' });
    expect(found).toContain('cure.wrong-class');
    expect(found).toContain('cure.above-limit');
    // Bacon that the recipe calls ham.
    const rubbed = { method: 'rubbed', greenGrams: HUNDRED } as const;
    expect(codes({ ...cured(8), class: 'dry-rubbed', product: BACON, application: rubbed })).toEqual(
      expect.arrayContaining(['cure.wrong-class', 'cure.above-limit']),
    );
  });

  it('has no class for ground bacon, nor for cure mixed dry into whole pieces', () => {
    expect(classOf({ ground: true, bacon: true }, GROUND)).toBeNull();
    expect(codes({ product: { ...SAUSAGE, bacon: true } })).toContain('cure.no-class');
    expect(codes({ product: HAM })).toContain('cure.no-class');
  });

  it('names a packet that is not for this use', () => {
    const bacon = { ...PINK, for: ['bacon-dry'] as const };
    expect(codes(cured(4, bacon))).toEqual(['cure.not-for-this']);
    expect(codes(cured(4, { ...PINK, for: ['ground', 'pumped'] }))).toEqual([]);
  });

  it('stops where a strength is missing, a percentage or impossible, and computes nothing', () => {
    for (const [nitrite, code] of [[null, 'cure.strength-missing'], [6.25, 'cure.strength-percent'], [0.4, 'cure.strength-unlikely']] as const)
      expect(answer(cured(4, { ...PINK, nitrite }))).toMatchObject({ ppm: null, mayStart: false, findings: [{ code, weight: 'stop' }] });
  }); // prettier-ignore

  describe('of pumped bacon', () => {
    const pickle = (nitritePpm: number, accelerator: number): Partial<CureCheck> => ({
      class: 'bacon-pumped',
      product: BACON,
      // 100 kg of pickle at 20 %: spread over 500 kg. 120 ppm are 60 g of nitrite, 960 g of pink cure.
      application: { method: 'pumped', pickleGrams: 100_000, pickUp: 0.2 },
      cures: [
        { mix: PINK, grams: nitritePpm * 8 },
        { mix: ERYTHORBATE, grams: accelerator / 2 },
      ],
    });
    it('is the level itself: neither above nor below, with its accelerator', () => {
      expect(codes(pickle(120, 550))).toEqual([]);
      expect(codes(pickle(121, 550))).toEqual(['cure.above-limit']);
      expect(codes(pickle(118, 550))).toEqual(['cure.below-level']);
      expect(codes(pickle(120, 500))).toEqual(['cure.below-minimum']);
    });

    it('counts potassium nitrite by what it is in sodium nitrite', () => {
      const potassium = { ...PINK, nitriteAs: 'potassium' } as const;
      const of = pickle(148, 550);
      const cures = [{ mix: potassium, grams: 148 * 8 }, ...(of.cures?.slice(1) ?? [])];
      expect(answer({ ...of, cures }).ppm?.nitrite).toBeCloseTo(119.99, 2);
      // Outside bacon both salts have one limit by weight.
      expect(answer({ cures: [{ mix: potassium, grams: 4 * OUNCE }] }).ppm?.nitrite).toBeCloseTo(156.25, 9);
    });
  });

  it('only warns where the figure itself is an assumption', () => {
    // An ounce of erythorbate: 625 ppm against 546.875.
    const found = answer({ cures: [{ mix: PINK, grams: 4 * OUNCE }, { mix: ERYTHORBATE, grams: OUNCE }] }); // prettier-ignore
    expect(found.findings).toMatchObject([{ code: 'cure.above-limit', weight: 'warn', rule: 'accelerator-ground' }]);
    expect(found.mayStart).toBe(true);
  }); // prettier-ignore

  it('notes that a dry cure above 200 ppm says nothing of the finished product', () => {
    const ham = { class: 'dry-rubbed', product: HAM, application: { method: 'rubbed', greenGrams: HUNDRED } } as const;
    expect(answer({ ...ham, ...cured(8) }).findings).toMatchObject([{ code: 'cure.finished-not-shown', weight: 'note' }]);
  }); // prettier-ignore

  it('warns of low heat without cure, and asks no minimum of what is not cured', () => {
    expect(codes({ cures: [] })).toEqual(['cure.none-at-low-heat']);
    expect(codes({ cures: [], product: { ...SAUSAGE, lowHeat: false } })).toEqual([]);
  });

  it('refuses a cure twice, too many cures and a negative step', () => {
    const twice = [...sausage.cures, ...sausage.cures];
    expect(() => answer({ cures: twice })).toThrow(expect.objectContaining({ code: 'id.duplicate' }));
    const many = Array.from({ length: 21 }, (_, i) => ({ mix: { ...PINK, id: `${i}` }, grams: 1 }));
    expect(() => answer({ cures: many })).toThrow(expect.objectContaining({ code: 'cures.too-many' }));
    expect(() => answer({ stepGrams: -1 })).toThrow(expect.objectContaining({ code: 'step.not-positive' }));
  });

  it('never starts above a limit of an official source, whatever the batch', () => {
    const green = fc.double({ min: 500, max: 2e5, noNaN: true });
    const dose = fc.double({ min: 0, max: 0.02, noNaN: true });
    const strength = fc.double({ min: 0.001, max: 0.15, noNaN: true });
    fc.assert(
      fc.property(green, dose, strength, (greenGrams, share, nitrite) => {
        const { mayStart } = answer({
          application: { method: 'mixed-in', greenGrams },
          cures: [{ mix: { ...PINK, nitrite }, grams: share * greenGrams }],
        });
        const ppm = share * nitrite * 1e6;
        fc.pre(Math.abs(ppm - 156.25) > 1e-6);
        expect(mayStart).toBe(ppm < 156.25);
      }),
      { numRuns: 1000 },
    );
  });

  it('starts with every dose that was computed for a limit and weighed on a scale', () => {
    const green = fc.double({ min: 100, max: 2e5, noNaN: true });
    const step = fc.constantFrom(0.01, 0.1, 0.5, 1, 2, 5, 28.349523125 / 8);
    fc.assert(
      fc.property(green, fc.double({ min: 0.004, max: 0.15, noNaN: true }), step, (greenGrams, nitrite, stepGrams) => {
        const mix = { ...PINK, nitrite };
        const application = { method: 'mixed-in', greenGrams } as const;
        const { grams, exactGrams } = cureFor(156.25, 'nitrite', mix, application, stepGrams);
        expect(grams).toBeLessThanOrEqual(exactGrams * (1 + 1e-12));
        expect(exactGrams - grams).toBeLessThan(stepGrams * (1 + 1e-9));
        expect(answer({ application, cures: [{ mix, grams }], stepGrams }).mayStart).toBe(true);
      }),
      { numRuns: 1000 },
    ); // prettier-ignore
  });
});

describe('the limits as data', () => {
  it('are each listed once, with a class and the rule in its own words', () => {
    expect(new Set(LIMITS.map(({ code }) => code)).size).toBe(LIMITS.length);
    for (const { classes, asWritten, ppm } of LIMITS) {
      expect(classes.length).toBeGreaterThan(0);
      expect(asWritten.length).toBeGreaterThan(10);
      expect(ppm).toBeGreaterThanOrEqual(0);
    }
  });

  it('cover nitrite and nitrate of every class', () => {
    const classes = ['ground', 'pumped', 'immersed', 'dry-rubbed', 'bacon-pumped', 'bacon-immersed', 'bacon-dry'] as const; // prettier-ignore
    for (const agent of ['nitrite', 'nitrate'] as const)
      for (const one of classes)
        expect(
          LIMITS.filter((limit) => limit.agent === agent && limit.classes.includes(one) && /ceiling|level/.test(limit.kind)),
          `${agent} ${one}`,
        ).toHaveLength(1); // prettier-ignore
  });
});
