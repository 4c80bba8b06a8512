import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { reconcile, type BalanceInput, type Flow } from '../../../src/core/balance/balance.ts';
import { anyGraph, densely, frozen, perfectCarcass, sum } from './graphs.ts';

const RUNS = { numRuns: 1000 };
const near = (a: number, b: number, scale: number) => expect(Math.abs(a - b)).toBeLessThan(scale);

describe('reconcile', () => {
  it('closes the worked example', () => {
    const { flows, chiSquare, degrees, imbalances } = reconcile({
      nodes: ['table'],
      flows: [
        { id: 'hanging', from: null, to: 'table', grams: 1000, sd: 3 },
        { id: 'meat', from: 'table', to: null, grams: 600, sd: 3 },
        { id: 'bone', from: 'table', to: null, grams: 391, sd: 3 },
      ],
    });
    expect(flows.map(({ grams }) => Math.round((grams as number) * 1e9) / 1e9)).toEqual([997, 603, 394]);
    for (const { sd } of flows) expect(sd).toBeCloseTo(Math.sqrt(6), 9);
    expect(chiSquare).toBeCloseTo(3, 9);
    expect(degrees).toBe(1);
    expect(imbalances).toEqual([{ node: 'table', grams: 9 }]);
  });

  it('agrees with dense matrices on any graph', () => {
    fc.assert(
      fc.property(anyGraph, (input) => {
        const ours = reconcile(frozen(input));
        const plain = densely(input);
        expect(ours.degrees).toBe(plain.degrees);
        near(ours.chiSquare, plain.chiSquare, 1e-6 * Math.max(1, plain.chiSquare));
        for (const { id, grams, sd, observable } of ours.flows) {
          const same = plain.estimates.get(id) ?? null;
          expect(observable).toBe(same !== null);
          if (!same) expect([grams, sd]).toEqual([null, null]);
          else {
            near(grams as number, same.grams, 1e-6);
            near(sd as number, same.sd, 1e-3);
          }
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('adjusts nothing when the readings balance', () => {
    fc.assert(
      fc.property(perfectCarcass, (input) => {
        const { flows, chiSquare, imbalances } = reconcile(frozen(input));
        for (const { adjusted, redundant } of flows) {
          expect(redundant).toBe(true);
          near(adjusted as number, 0, 1e-6);
        }
        expect(chiSquare).toBeLessThan(1e-9);
        for (const { grams } of imbalances) expect(grams).toBe(0);
      }),
      RUNS,
    );
  });

  it('conserves mass', () => {
    fc.assert(
      fc.property(anyGraph, (input) => {
        const { flows } = reconcile(input);
        const grams = new Map(flows.map((flow) => [flow.id, flow.grams]));
        for (const node of input.nodes) {
          const into = input.flows.filter((flow) => flow.to === node).map((flow) => grams.get(flow.id));
          const out = input.flows.filter((flow) => flow.from === node).map((flow) => grams.get(flow.id));
          const all = [...into, ...out];
          if (into.length === 0 || out.length === 0 || all.some((one) => one === null)) continue;
          const scale = Math.max(...flows.map((flow) => Math.abs(flow.grams ?? 0)), 1);
          near(sum(into as number[]), sum(out as number[]), 1e-9 * scale);
        }
      }),
      RUNS,
    );
  });

  it('does not depend on the order of flows and nodes', () => {
    fc.assert(
      fc.property(anyGraph, fc.infiniteStream(fc.double({ noNaN: true })), (input, random) => {
        const keys = new Map(input.flows.map((flow) => [flow.id, random.next().value as number]));
        const shuffled = input.flows.toSorted((a, b) => (keys.get(a.id) ?? 0) - (keys.get(b.id) ?? 0));
        const one = reconcile(input);
        const other = reconcile({ flows: shuffled, nodes: input.nodes.toReversed() });
        near(one.chiSquare, other.chiSquare, 1e-7 * Math.max(1, one.chiSquare));
        expect(other.degrees).toBe(one.degrees);
        for (const flow of one.flows) {
          const same = other.flows.find(({ id }) => id === flow.id);
          expect(same).toMatchObject({ redundant: flow.redundant, observable: flow.observable });
          if (flow.grams !== null) near(same?.grams as number, flow.grams, 1e-6);
          if (flow.z !== null) near(same?.z as number, flow.z, 1e-6 * Math.max(1, Math.abs(flow.z)));
        }
      }),
      RUNS,
    );
  });

  it('does not depend on the unit', () => {
    const times = fc.constantFrom(0.001, 0.45359237, 8, 100);
    fc.assert(
      fc.property(anyGraph, times, (input, by) => {
        const scaled: Flow[] = input.flows.map((flow) => ({
          ...flow,
          grams: flow.grams === null ? null : flow.grams * by,
          sd: (flow.sd as number) * by,
          prior: flow.prior && { mean: flow.prior.mean * by, sd: flow.prior.sd * by },
        }));
        const one = reconcile(input);
        const other = reconcile({ ...input, flows: scaled });
        near(other.chiSquare, one.chiSquare, 1e-7 * Math.max(1, one.chiSquare));
        one.flows.forEach((flow, i) => {
          const same = other.flows[i];
          if (flow.grams !== null) near((same?.grams as number) / by, flow.grams, 1e-6);
          if (flow.sd !== null) near((same?.sd as number) / by, flow.sd, 1e-6);
        });
      }),
      RUNS,
    );
  });

  it('is never less certain after another weighing', () => {
    fc.assert(
      fc.property(anyGraph, fc.nat(), (input, pick) => {
        const before = reconcile(input);
        const open = input.flows.filter((flow) => flow.grams === null);
        fc.pre(open.length > 0);
        const weighed = open[pick % open.length] as Flow;
        const estimate = Math.max(0, before.flows.find(({ id }) => id === weighed.id)?.grams ?? 1000);
        const flows = input.flows.map((flow) =>
          flow === weighed ? { ...flow, grams: estimate, sd: 5 } : flow,
        );
        const after = reconcile({ ...input, flows });
        before.flows.forEach(({ sd }, i) => {
          if (sd !== null) expect(after.flows[i]?.sd ?? Infinity).toBeLessThan(sd + 1e-6);
        });
      }),
      RUNS,
    );
  });

  it('changes nothing else when a flow from the environment to a terminal node is added', () => {
    const aside: Flow = { id: 'aside', from: null, to: 'shelf', grams: 700, sd: 3 };
    fc.assert(
      fc.property(anyGraph, (input) => {
        const more = reconcile({ flows: [...input.flows, aside], nodes: [...input.nodes, 'shelf'] });
        expect(more.flows.slice(0, -1)).toEqual(reconcile(input).flows);
        expect(more.flows.at(-1)).toMatchObject({
          grams: 700,
          sd: 3,
          adjusted: 0,
          z: null,
          redundant: false,
        });
      }),
      RUNS,
    );
  });
});

describe('reconcile on a partly weighed carcass', () => {
  const part = (id: string, grams: number | null): Flow => ({ id, from: 'table', to: null, grams, sd: 10 });
  const hanging: Flow = { id: 'hanging', from: null, to: 'table', grams: 50_000, sd: 20 };
  const flowOf = (input: BalanceInput, id: string) => reconcile(input).flows.find((flow) => flow.id === id);

  it('computes the only unweighed part', () => {
    const input = { nodes: ['table'], flows: [hanging, part('meat', 30_000), part('bone', null)] };
    const bone = flowOf(input, 'bone');
    expect(bone).toMatchObject({
      grams: 20_000,
      adjusted: null,
      z: null,
      redundant: false,
      observable: true,
    });
    expect(bone?.sd).toBeCloseTo(Math.hypot(20, 10), 9);
    expect(flowOf(input, 'meat')).toMatchObject({ redundant: false, sd: 10, z: null });
    expect(reconcile(input)).toMatchObject({ chiSquare: 0, degrees: 0 });
    expect(reconcile(input).imbalances).toEqual([{ node: 'table', grams: null }]);
  });

  it('does not estimate what two missing weights leave open', () => {
    const input = { nodes: ['table'], flows: [hanging, part('meat', null), part('bone', null)] };
    for (const id of ['meat', 'bone']) {
      expect(flowOf(input, id)).toMatchObject({ grams: null, sd: null, observable: false });
    }
  });

  it('marks a negative estimate without clamping it', () => {
    const input = { nodes: ['table'], flows: [hanging, part('meat', 51_000), part('bone', null)] };
    expect(flowOf(input, 'bone')).toMatchObject({ grams: -1000, negative: true });
  });

  it('does not mark a zero that rounding makes negative', () => {
    const into: Flow = { id: 'in', from: null, to: 'tub', grams: 30, sd: 22 };
    const there: Flow = { id: 'there', from: 'tub', to: 'grinder', grams: null };
    const back: Flow = { id: 'back', from: 'grinder', to: 'tub', grams: null };
    const first = flowOf({ nodes: ['tub', 'grinder'], flows: [into, there, back] }, 'in');
    expect(first?.grams).toBeCloseTo(0, 9);
    expect(first?.negative).toBe(false);
  });

  it('is unobservable while an animal only hangs', () => {
    expect(reconcile({ nodes: ['table'], flows: [hanging] })).toMatchObject({
      flows: [{ grams: 50_000, sd: 20, redundant: false, observable: true }],
      chiSquare: 0,
      degrees: 0,
    });
    expect(reconcile({ nodes: [], flows: [] })).toMatchObject({ flows: [], degrees: 0 });
  });

  it('uses the prior of shrink like an uncertain weighing', () => {
    const shrink: Flow = { ...part('shrink', null), prior: { mean: 1000, sd: 750 } };
    const input = {
      nodes: ['table'],
      flows: [hanging, part('meat', 30_000), part('bone', 18_500), shrink],
    };
    const { flows, degrees } = reconcile(input);
    expect(degrees).toBe(1);
    const spread = Math.hypot(20, 10, 10, 750);
    expect(flows[3]?.grams).toBeCloseTo(1000 + (500 * 750 ** 2) / spread ** 2, 6);
    expect(flows[3]?.z).toBeCloseTo(500 / spread, 9);
    expect(flows[3]?.redundant).toBe(true);
  });

  it('checks a weighed shrink against its prior', () => {
    const shrink: Flow = { ...part('shrink', 4000), prior: { mean: 1000, sd: 750 } };
    const { degrees, chiSquare, flows } = reconcile({ nodes: ['table'], flows: [hanging, shrink] });
    expect(degrees).toBe(2);
    expect(flows[1]?.redundant).toBe(true);
    expect(chiSquare).toBeGreaterThan(5.99); // the 95 % quantile of chi-square with 2 degrees
  });

  it('balances a closed cycle', () => {
    const { degrees, flows } = reconcile({
      nodes: ['tub', 'grinder'],
      flows: [
        { id: 'there', from: 'tub', to: 'grinder', grams: 100, sd: 1 },
        { id: 'back', from: 'grinder', to: 'tub', grams: 104, sd: 1 },
      ],
    });
    expect(degrees).toBe(1);
    expect(flows[0]?.grams).toBeCloseTo(102, 9);
  });
});

describe('the measurement test', () => {
  it('cannot separate the readings of a single balance', () => {
    const { flows } = reconcile({
      nodes: ['table'],
      flows: [
        { id: 'hanging', from: null, to: 'table', grams: 1000, sd: 3 },
        { id: 'meat', from: 'table', to: null, grams: 600, sd: 5 },
        { id: 'bone', from: 'table', to: null, grams: 300, sd: 4 },
      ],
    });
    const z = 100 / Math.hypot(3, 5, 4);
    expect(flows.map((flow) => flow.z)).toEqual([-z, z, z].map((each) => expect.closeTo(each, 9)));
  });

  it('is largest for the wrong reading where two balances include it', () => {
    fc.assert(
      fc.property(perfectCarcass, fc.nat(), fc.constantFrom(-1, 1), (input, pick, sign) => {
        const primals = input.flows.filter(({ id }) => id.startsWith('primal'));
        fc.pre(primals.length > 1);
        const wrong = primals[pick % primals.length] as Flow;
        const off = sign * 40 * (wrong.sd as number);
        fc.pre((wrong.grams ?? 0) + off >= 0);
        const changed = input.flows.map((flow) =>
          flow === wrong ? { ...flow, grams: (flow.grams ?? 0) + off } : flow,
        );
        const { flows } = reconcile({ ...input, flows: changed });
        const [first, second] = flows.toSorted((a, b) => Math.abs(b.z ?? 0) - Math.abs(a.z ?? 0));
        expect(first?.id).toBe(wrong.id);
        expect(Math.sign(first?.z ?? 0)).toBe(-sign);
        expect(Math.abs(second?.z ?? 0)).toBeLessThan(Math.abs(first?.z ?? 0));
      }),
      RUNS,
    );
  });
});

describe('reconcile with bad input', () => {
  const good: Flow = { id: 'x', from: null, to: 'a', grams: 10, sd: 1 };
  const flow = (change: Partial<Flow>): BalanceInput => ({ nodes: ['a'], flows: [{ ...good, ...change }] });
  const many = Array.from({ length: 10_000 }, (_, i) => ({ ...good, id: `x${i}` }));
  it.each<[string, BalanceInput]>([
    ['balance.unknown-node', flow({ to: 'nowhere' })],
    ['balance.same-ends', flow({ to: null })],
    ['balance.same-ends', flow({ from: 'a' })],
    ['balance.id-twice', { nodes: ['a'], flows: [good, good] }],
    ['balance.id-twice', { nodes: ['a', 'a'], flows: [good] }],
    ['balance.too-many-flows', { nodes: ['a'], flows: many }],
    ['balance.sd-spread', { nodes: ['a'], flows: [good, { ...good, id: 'y', sd: 1e7 }] }],
    ['number.not-finite', flow({ grams: Number.NaN })],
    ['number.not-finite', flow({ prior: { mean: Infinity, sd: 1 } })],
    ['number.too-large', flow({ grams: 1e12 })],
    ['flow.negative', flow({ grams: -1 })],
    ['sd.not-positive', flow({ sd: 0 })],
    ['sd.not-positive', flow({ sd: undefined })],
    ['sd.not-positive', flow({ sd: Number.NaN })],
    ['number.not-finite', flow({ sd: Infinity })],
    ['sd.not-positive', flow({ prior: { mean: 1, sd: -1 } })],
  ])('answers %s', (code, input) => {
    expect(() => reconcile(input)).toThrow(expect.objectContaining({ code }));
  });

  it('accepts 300 flows and reports the limit above', () => {
    expect(reconcile({ nodes: ['a'], flows: many.slice(0, 300) }).flows).toHaveLength(300);
    expect(() => reconcile({ nodes: ['a'], flows: many.slice(0, 301) })).toThrow(
      expect.objectContaining({ with: { flows: 301, most: 300 } }),
    );
  });
});
