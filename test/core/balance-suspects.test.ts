import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reconcile, type Flow } from '../../src/core/balance.ts';
import { criticalZ } from '../../src/core/balance-suspects.ts';
import { parseReading, readingGrams } from '../../src/core/reading.ts';
import { perfectCarcass } from './balance-graphs.ts';

/** A weighed flow as the desk hands it on; 0.2 lb covers scale, drip and what sticks to the table. */
function weighed(id: string, from: string | null, to: string | null, typed: string): Flow {
  const reading = parseReading(typed, 'lb');
  return { id, from, to, grams: readingGrams(reading), sd: 90, reading };
}

/** A moose of 500 lb on the rail; the parts and 2 lb of shrink add up. */
function moose(change: Record<string, string> = {}) {
  const parts = {
    'whole cuts': '152.4',
    trim: '161.2',
    bone: '120.0',
    sinew: '38.16',
    fat: '8.16',
    damage: '18.1',
    ...change,
  };
  return reconcile({
    nodes: ['table'],
    flows: [
      weighed('hanging', null, 'table', '500.0'),
      { id: 'shrink', from: 'table', to: null, grams: null, prior: { mean: 907, sd: 200 } },
      ...Object.entries(parts).map(([id, typed]) => weighed(id, 'table', null, typed)),
    ],
  });
}

describe('a moose on the table', () => {
  it('closes as it should be', () => {
    const { suspects, degrees } = moose();
    expect(degrees).toBe(1);
    expect(suspects).toEqual([]);
  });

  it.each([
    ['bone', '210.0', { digits: 1200, decimals: 1, unit: 'lb', kind: 'digits-swapped' }],
    ['fat', '81.6', { digits: 816, decimals: 2, unit: 'lb', kind: 'decimal-slipped' }],
    ['whole cuts', '152.4 kg', { digits: 1524, decimals: 1, unit: 'lb', kind: 'wrong-unit' }],
    ['trim', '161.2 kg', { digits: 1612, decimals: 1, unit: 'lb', kind: 'wrong-unit' }],
    ['damage', '181', { digits: 181, decimals: 1, unit: 'lb', kind: 'decimal-slipped' }],
  ])('names %s typed as %s first, and what was meant', (id, typed, meant) => {
    const { suspects, pValue } = moose({ [id]: typed });
    expect(pValue).toBeLessThan(1e-6);
    expect(suspects[0]?.id).toBe(id);
    expect(suspects[0]?.likelyTyped).toMatchObject(meant);
  });

  it('says that one balance alone cannot tell its readings apart', () => {
    const { suspects } = moose({ bone: '210.0' });
    expect(suspects).toHaveLength(8);
    for (const { z } of suspects) expect(Math.abs(z)).toBeCloseTo(Math.abs(suspects[0]?.z ?? 0), 6);
    expect(suspects[0]?.tiedWith.toSorted()).toEqual(
      ['damage', 'fat', 'hanging', 'shrink', 'sinew', 'trim', 'whole cuts'].toSorted(),
    );
    expect(suspects.at(-1)).toMatchObject({ id: 'shrink', believed: true });
    expect(suspects.find(({ id }) => id === 'trim')?.z).toBeLessThan(0); // the rest asks for less
    expect(suspects.find(({ id }) => id === 'hanging')?.z).toBeGreaterThan(0);
  });

  it('offers nothing when no single slip explains it', () => {
    const { suspects } = moose({ bone: '137.3' });
    expect(suspects.length).toBeGreaterThan(0);
    for (const suspect of suspects.filter(({ id }) => id === 'bone')) {
      expect(suspect).not.toHaveProperty('likelyTyped');
    }
  });

  it('finds a tare left in, also on a weight booked net of another tare', () => {
    const bone = weighed('bone', 'table', null, '126.4');
    const [net, tub] = [2 * 453.59237, 6.4 * 453.59237];
    const { suspects } = reconcile({
      nodes: ['table'],
      flows: [
        weighed('hanging', null, 'table', '318.0'),
        weighed('meat', 'table', null, '200.0'),
        { ...bone, grams: (bone.grams ?? 0) - net, tareGrams: tub },
      ],
    });
    expect(suspects.find(({ id }) => id === 'bone')?.likelyTyped).toMatchObject({
      kind: 'tare-left-in',
      digits: 1200,
    });
  });
});

describe('suspects', () => {
  it('are the wrong reading first, where the balances can tell', () => {
    // A primal is seen by two balances, so its error cannot be laid on anything else.
    fc.assert(
      fc.property(perfectCarcass, fc.nat(), fc.constantFrom(-1, 1), (input, pick, sign) => {
        const primals = input.flows.filter(({ id }) => id.startsWith('primal'));
        fc.pre(primals.length > 1);
        const wrong = primals[pick % primals.length] as Flow;
        const off = sign * 40 * (wrong.sd as number);
        fc.pre((wrong.grams ?? 0) + off >= 0);
        const flows = input.flows.map((flow) =>
          flow === wrong ? { ...flow, grams: (flow.grams ?? 0) + off } : flow,
        );
        const { suspects, criticalZ: critical } = reconcile({ ...input, flows });
        expect(suspects[0]).toMatchObject({ id: wrong.id, tiedWith: [] });
        expect(Math.sign(suspects[0]?.z ?? 0)).toBe(-sign);
        for (const { z } of suspects) expect(Math.abs(z)).toBeGreaterThan(critical ?? Infinity);
        suspects.slice(1).forEach(({ z }, i) => {
          expect(Math.abs(z)).toBeLessThanOrEqual(Math.abs(suspects[i]?.z ?? 0) * (1 + 1e-6));
        });
      }),
      { numRuns: 1000 },
    );
  });

  it('are named in about the promised share of good balances', () => {
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const normal = normals(seed);
        const alarms = Array.from({ length: 400 }, () => {
          const read = (id: string, from: string | null, to: string | null, grams: number): Flow => ({
            id,
            from,
            to,
            grams: grams + 30 * normal(),
            sd: 30,
          });
          const flows = [
            read('hanging', null, 'rail', 60_000),
            read('front', 'rail', 'table', 25_000),
            read('hind', 'rail', null, 35_000),
            read('meat', 'table', null, 16_000),
            read('bone', 'table', null, 9000),
          ];
          return reconcile({ nodes: ['rail', 'table'], flows, level: 0.05 }).suspects.length > 0;
        });
        const share = alarms.filter(Boolean).length / alarms.length;
        expect(share).toBeGreaterThan(0.015); // 5 % to 9 % expected, five binomial sds either way
        expect(share).toBeLessThan(0.15);
      }),
      { numRuns: 5, seed: 26 },
    );
  });

  it('need a larger z the more readings are looked at', () => {
    expect(criticalZ(0.05, 1)).toBeCloseTo(1.96, 3);
    expect(criticalZ(0.05, 10)).toBeCloseTo(2.8, 2); // 1 - 0.95^(1/10) = 0.005116, two-sided
    expect(criticalZ(0.01, 10)).toBeGreaterThan(criticalZ(0.05, 10));
  });
});

/** Standard normal draws from a seed: sums of twelve uniform numbers of a linear congruential generator. */
function normals(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return () => Array.from({ length: 12 }, uniform).reduce((a, b) => a + b, 0) - 6;
}
