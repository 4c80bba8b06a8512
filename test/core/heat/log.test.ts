import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { judgeCook } from '../../../src/core/heat/cook.ts';
import { checkLog, MAX_READINGS, toC, type ProductReading } from '../../../src/core/heat/log.ts';
import { cookOf, HOSTS, lines, log, MINUTE, TABLE } from './data.ts';

/** A cook that meets the figures: 38 to 160 °F in 200 minutes. */
const SOUND = lines([0, 38], [200, 160]);
const answerOf = (readings: readonly ProductReading[], degrees: 'F' | 'C' = 'F') =>
  judgeCook(cookOf([], { logs: [log(readings, degrees)] }), TABLE, HOSTS).answer;
const faultsOf = (readings: readonly ProductReading[], degrees: 'F' | 'C' = 'F'): [string, number][] =>
  checkLog(log(readings, degrees), 130).faults.map(({ code, index }) => [code, index]);
const changed = (index: number, change: Partial<ProductReading>): ProductReading[] =>
  SOUND.map((reading, i) => (i === index ? { ...reading, ...change } : reading));
const moved = (from: number, minutes: number): ProductReading[] =>
  SOUND.map((reading, i) => (i >= from ? { ...reading, at: reading.at + minutes * MINUTE } : reading));

describe('a log of product temperature', () => {
  it('without faults has all its readings', () => {
    expect(faultsOf(SOUND)).toEqual([]);
    expect(answerOf(SOUND)).toBe('meets-figures');
    const celsius = SOUND.map(({ at, value }) => ({ at, value: toC(value ?? 0) }));
    expect(answerOf(celsius, 'C')).toBe('meets-figures');
  });

  it.each([
    ['a sensor at −40', changed(90, { value: -40 }), [['reading.sensor', 90]]],
    ['a sensor at 999', changed(90, { value: 999 }), [['reading.sensor', 90]]],
    ['a reading that is missing', changed(90, { value: null }), [['reading.missing', 90]]],
    ['a reading that is no number', changed(90, { value: NaN }), [['reading.missing', 90]]],
    ['a reading in °C among °F', changed(195, { value: toC(157) }), [['reading.degrees', 195]]],
    ['a jump there and back', changed(60, { value: 10 }), [['reading.spike', 60]]],
    ['a double reading', [...SOUND.slice(0, 50), { ...SOUND[49]! }, ...SOUND.slice(50)], [['reading.double', 50]]],
    ['a reading out of order', [...SOUND.slice(0, 50), SOUND[20]!, ...SOUND.slice(50)], [['log.order', 50]]],
    ['a clock set back an hour', moved(100, -60), [['log.clock-back', 100]]],
    ['a clock set forward an hour', moved(100, 60), [['log.clock-forward', 100]]],
    ['a log in °C said to be in °F', SOUND.map(({ at, value }) => ({ at, value: toC(value ?? 0) })), [['log.degrees', 0]]],
  ] as [string, ProductReading[], [string, number][]][])('names %s by its place, and proves nothing with it', (_, readings, faults) => {
    expect(faultsOf(readings)).toEqual(faults);
    expect(answerOf(readings)).toBe('not-proven');
  }); // prettier-ignore

  it('said to be in °C and really in °F is named', () => {
    expect(faultsOf(SOUND, 'C')).toEqual([['log.degrees', 0]]);
    expect(answerOf(SOUND, 'C')).toBe('not-proven');
  });

  it('keeps what it does not use: each reading is a point or is named', () => {
    const value = fc.oneof(fc.double({ min: -50, max: 250, noNaN: true }), fc.constantFrom(null, NaN, -40, 999, 32_767)); // prettier-ignore
    const reading = fc.record({ at: fc.integer({ min: 0, max: 1e7 }), value });
    fc.assert(
      fc.property(fc.array(reading, { maxLength: 40 }), fc.constantFrom('F' as const, 'C' as const), (readings, degrees) => {
        const { points, faults } = checkLog(log(readings, degrees), 130);
        const whole = faults.some(({ code }) => code === 'log.degrees');
        const dropped = new Set(faults.filter(({ drops }) => drops).map(({ index }) => index));
        if (!whole) expect(points.length + dropped.size).toBe(readings.length);
        expect(points.map(({ at }) => at)).toEqual(points.map(({ at }) => at).toSorted((a, b) => a - b));
        for (const { f } of points) expect(Number.isFinite(f)).toBe(true);
      }),
      { numRuns: 1000 },
    );
  }); // prettier-ignore

  it('never meets the figures with a fault in it, wherever it is', () => {
    const bad = fc.constantFrom<Partial<ProductReading>>({ value: -40 }, { value: 999 }, { value: null });
    fc.assert(
      fc.property(fc.nat(SOUND.length - 1), bad, (index, change) => {
        expect(answerOf(changed(index, change))).toBe('not-proven');
      }),
      { numRuns: 200 },
    );
  });

  it('refuses a moment that is none and a log without end', () => {
    expect(() => checkLog(log([{ at: NaN, value: 1 }]), 130)).toThrow(expect.objectContaining({ code: 'number.not-finite', field: 'readings[0].at' })); // prettier-ignore
    const many = Array.from({ length: MAX_READINGS + 1 }, (_, at) => ({ at, value: 1 }));
    expect(() => checkLog(log(many), 130)).toThrow(expect.objectContaining({ code: 'log.too-long' }));
  });

  it('tells a thousand faults of one kind as one finding, and keeps each', () => {
    const readings = [...SOUND, ...Array.from({ length: 1000 }, (_, i) => ({ at: SOUND.at(-1)!.at + (i + 1) * MINUTE, value: i % 2 ? null : 999 }))]; // prettier-ignore
    const { missing, probes } = judgeCook(cookOf(readings), TABLE, HOSTS);
    expect(missing.filter(({ code }) => code.startsWith('reading'))).toMatchObject([
      { code: 'reading.sensor', at: SOUND.at(-1)!.at + MINUTE, with: { count: 500 } },
      { code: 'reading.missing', with: { count: 500 } },
    ]);
    expect(probes[0]?.faults).toHaveLength(1000);
  });

  it('may have as many readings as a logger writes in days', () => {
    // Work that grew with the square of them would outlast the test.
    const readings = Array.from({ length: MAX_READINGS }, (_, i) => ({ at: i * 1000, value: 38 + (122 * i) / MAX_READINGS }));
    expect(judgeCook(cookOf(readings), TABLE, HOSTS)).toMatchObject({ answer: 'not-met', notMet: [{ code: 'come-up.long' }] });
  }); // prettier-ignore
});
