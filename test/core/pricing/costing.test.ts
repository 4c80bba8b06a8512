import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { breakEvenFee, costOf, marginOf, type Service } from '../../../src/core/pricing/costing.ts';
import { sensitivity } from '../../../src/core/pricing/costing-sensitivity.ts';

/** Made-up figures; 20 kg, nothing lost, one hour at 3000, twenty packages at 25. */
const grind: Service = Object.freeze({
  code: 'grind',
  receivedGrams: 20_000,
  shrink: 0,
  minutesPerAnimal: 20,
  minutesPerKg: 2,
  wagePerHour: 2000,
  overheadPerHour: 1000,
  gramsPerPackage: 1000,
  packagingPerPackage: 25,
  boughtFatShare: 0,
  fatPerKg: 0,
});

const anyService: fc.Arbitrary<Service> = fc.record({
  code: fc.constant('any'),
  receivedGrams: fc.integer({ min: 500, max: 300_000 }),
  shrink: fc.integer({ min: 0, max: 800 }).map((n) => n / 1000),
  minutesPerAnimal: fc.nat({ max: 200 }),
  minutesPerKg: fc.nat({ max: 20 }),
  wagePerHour: fc.nat({ max: 6000 }),
  overheadPerHour: fc.nat({ max: 3000 }),
  gramsPerPackage: fc.integer({ min: 200, max: 2000 }),
  packagingPerPackage: fc.nat({ max: 100 }),
  boughtFatShare: fc.integer({ min: 0, max: 500 }).map((n) => n / 1000),
  fatPerKg: fc.nat({ max: 1000 }),
});

describe('costOf', () => {
  it('adds up the worked example', () => {
    const cost = costOf(grind);
    expect(cost).toMatchObject({ finishedGrams: 20_000, hours: 1, packages: 20, costPerJob: 3500, costPerKg: 175 });
    expect(cost.costPerLb).toBeCloseTo(175 * 0.45359237, 9);
  }); // prettier-ignore

  it('counts bought fat on top of own meat', () => {
    const cost = costOf({ ...grind, shrink: 0.1, boughtFatShare: 0.1, fatPerKg: 400 });
    expect(cost.finishedGrams).toBeCloseTo(20_000, 9);
    expect(cost.parts.fat).toBeCloseTo(800, 9);
    expect(cost.packages).toBe(20);
  });

  it('sums its parts, and a job twice the size never costs more a pound', () => {
    fc.assert(
      fc.property(anyService, (service) => {
        const { parts, costPerJob, costPerLb, costPerKg, finishedGrams, packages } = costOf(service);
        expect(parts.wages + parts.overhead + parts.packaging + parts.fat).toBeCloseTo(costPerJob, 6);
        expect(costPerLb).toBeCloseTo(costPerKg * 0.45359237, 6);
        expect(packages * service.gramsPerPackage).toBeGreaterThanOrEqual(finishedGrams * (1 - 1e-6));
        const twice = costOf({ ...service, receivedGrams: 2 * service.receivedGrams });
        expect(twice.costPerKg).toBeLessThanOrEqual(costPerKg * (1 + 1e-9) + 1e-9);
      }),
      { numRuns: 1000 },
    );
  });

  it.each([
    [{ receivedGrams: 0 }, 'grams.not-positive'],
    [{ gramsPerPackage: -1 }, 'grams.not-positive'],
    [{ shrink: 1 }, 'share.out-of-range'],
    [{ boughtFatShare: -0.1 }, 'share.out-of-range'],
    [{ wagePerHour: -1 }, 'amount.negative'],
    [{ minutesPerKg: NaN }, 'number.not-finite'],
    [{ fatPerKg: Infinity }, 'number.not-finite'],
  ])('refuses %o', (wrong, code) => {
    expect(() => costOf({ ...grind, ...wrong })).toThrow(expect.objectContaining({ code }));
  });
});

describe('fee and margin', () => {
  it('break even at cost, and leave the wanted part of the fee', () => {
    expect(breakEvenFee(grind, 0, 'kg')).toBe(175);
    expect(breakEvenFee(grind, 0.3, 'kg')).toBeCloseTo(250, 9);
    expect(marginOf(grind, 250, 'kg')).toEqual({ perJob: 1500, share: 0.3 });
    expect(marginOf(grind, 140, 'kg').share).toBeCloseTo(-0.25, 12);
  });

  it('undo each other', () => {
    fc.assert(
      fc.property(anyService, fc.integer({ min: 0, max: 95 }), (service, percent) => {
        fc.pre(costOf(service).costPerJob > 0);
        const fee = breakEvenFee(service, percent / 100, 'lb');
        expect(marginOf(service, fee, 'lb').share).toBeCloseTo(percent / 100, 9);
      }),
      { numRuns: 1000 },
    );
  });

  it('refuse margins and fees that cannot be', () => {
    expect(() => breakEvenFee(grind, 1, 'lb')).toThrow(expect.objectContaining({ code: 'share.out-of-range' }));
    expect(() => marginOf(grind, 0, 'lb')).toThrow(expect.objectContaining({ code: 'amount.not-positive' }));
    expect(() => marginOf(grind, NaN, 'lb')).toThrow(expect.objectContaining({ code: 'number.not-finite' }));
  }); // prettier-ignore
});

describe('sensitivity', () => {
  it('names the figure that moves the cost most, greatest first', () => {
    const swings = sensitivity(
      { ...grind, packagingPerPackage: 0, wagePerHour: 2400, overheadPerHour: 600 },
      0.1,
    );
    expect(swings.find(({ input }) => input === 'wagePerHour')).toMatchObject({
      lowCostPerLb: expect.closeTo(2760 * 0.05 * 0.45359237, 9),
      highCostPerLb: expect.closeTo(3240 * 0.05 * 0.45359237, 9),
    }); // prettier-ignore
    expect(swings[0]?.input).toBe('wagePerHour');
    expect(sensitivity({ ...grind, packagingPerPackage: 1000 })[0]?.input).toBe('gramsPerPackage');
    const order = swings.map(({ swing }) => swing);
    expect(order).toEqual(order.toSorted((a, b) => b - a));
    expect(swings.find(({ input }) => input === 'fatPerKg')?.swing).toBe(0);
  });

  it('does not raise a share to the whole', () => {
    const swings = sensitivity({ ...grind, shrink: 0.95 }, 0.2);
    expect(swings.find(({ input }) => input === 'shrink')?.highCostPerLb).toBeCloseTo(
      costOf({ ...grind, shrink: 0.99 }).costPerLb,
      9,
    );
    expect(() => sensitivity(grind, 1)).toThrow(expect.objectContaining({ code: 'share.out-of-range' }));
  });
});
