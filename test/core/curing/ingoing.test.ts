import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  agentGramsFor,
  baseGrams,
  ingoingPpm,
  pickUpOf,
  type Application,
} from '../../../src/core/curing/ingoing.ts';
import {
  agentGramsIn,
  asPotassium,
  asSodium,
  saltGramsIn,
  strengthFindings,
} from '../../../src/core/curing/mix.ts';
import { HUNDRED, NUMBER_TWO, OUNCE, PINK } from './data.ts';

const grams = fc.double({ min: 1, max: 1e6, noNaN: true });
const pickUp = fc.double({ min: 0.01, max: 1, noNaN: true });
const application: fc.Arbitrary<Application> = fc.oneof(
  fc.record({ method: fc.constant('mixed-in' as const), greenGrams: grams }),
  fc.record({ method: fc.constant('pumped' as const), pickleGrams: grams, pickUp }),
  fc.record({ method: fc.constant('immersed' as const), by: fc.constant('pick-up' as const), pickleGrams: grams, pickUp }),
  fc.record({ method: fc.constant('immersed' as const), by: fc.constant('equilibrium' as const), pickleGrams: grams, greenGrams: grams }),
  fc.record({ method: fc.constant('rubbed' as const), greenGrams: grams, skinOn: fc.boolean() }),
); // prettier-ignore

describe('ingoing ppm', () => {
  it('of 4 oz of a 6.25 % cure on 100 lb is a quarter of an ounce in 1,600', () => {
    expect(ingoingPpm(agentGramsIn(PINK, 'nitrite', 4 * OUNCE), { method: 'mixed-in', greenGrams: HUNDRED })).toBeCloseTo(156.25, 9);
  }); // prettier-ignore

  it('by each method, with the figures written out', () => {
    // 1.26 g in 600 g of brine on 1,200 g of meat: 10 % picked up, 1.26 × 0.1 ÷ 600; spread evenly, 1.26 ÷ 1,800.
    expect(ingoingPpm(1.26, { method: 'immersed', by: 'pick-up', pickleGrams: 600, pickUp: 0.1 })).toBeCloseTo(210, 9);
    expect(ingoingPpm(1.26, { method: 'immersed', by: 'equilibrium', pickleGrams: 600, greenGrams: 1200 })).toBeCloseTo(700, 9);
    // 2 lb in 100 gal of 10 lb each, a tenth pumped: 0.2 lb over 1,000 lb.
    expect(ingoingPpm(2, { method: 'pumped', pickleGrams: 1000, pickUp: 0.1 })).toBeCloseTo(200, 9);
    // A belly of 10 kg with its skin counts as 9 kg: 1.8 g ÷ 9,000 g.
    expect(ingoingPpm(1.8, { method: 'rubbed', greenGrams: 10_000, skinOn: true })).toBeCloseTo(200, 9);
    expect(ingoingPpm(1.8, { method: 'rubbed', greenGrams: 10_000 })).toBeCloseTo(180, 9);
  }); // prettier-ignore

  it('goes back to the same grams, and grows with the agent and not with water beside the meat', () => {
    fc.assert(
      fc.property(application, fc.double({ min: 0.001, max: 1e5, noNaN: true }), (how, agent) => {
        const ppm = ingoingPpm(agent, how);
        expect((ppm * baseGrams(how)) / (agent * 1e6)).toBeCloseTo(1, 12);
        fc.pre(ppm <= 1e6);
        expect(agentGramsFor(ppm, how) / agent).toBeCloseTo(1, 12);
        expect(ingoingPpm(2 * agent, how) / ppm).toBeCloseTo(2, 12);
      }),
      { numRuns: 1000 },
    );
  });

  it('by massaging all pickle in equals mixing its nitrite straight into the meat', () => {
    fc.assert(
      fc.property(grams, grams, pickUp, (agent, green, share) => {
        const pickled = ingoingPpm(agent, { method: 'pumped', pickleGrams: green * share, pickUp: share });
        expect(pickled / ingoingPpm(agent, { method: 'mixed-in', greenGrams: green })).toBeCloseTo(1, 9);
      }),
    );
  });

  it.each([
    ['negative agent', () => ingoingPpm(-1, { method: 'mixed-in', greenGrams: 1 }), 'grams.negative'],
    ['no meat', () => ingoingPpm(1, { method: 'mixed-in', greenGrams: 0 }), 'grams.not-positive'],
    ['twenty tons', () => ingoingPpm(1, { method: 'rubbed', greenGrams: 2e7 }), 'grams.too-heavy'],
    ['no number', () => ingoingPpm(NaN, { method: 'mixed-in', greenGrams: 1 }), 'number.not-finite'],
    ['percent of pump', () => ingoingPpm(1, { method: 'pumped', pickleGrams: 9, pickUp: 10 }), 'pick-up.percent'],
    ['nothing picked up', () => ingoingPpm(1, { method: 'immersed', by: 'pick-up', pickleGrams: 9, pickUp: 0 }), 'pick-up.range'],
    ['lighter after pumping', () => pickUpOf(1000, 990), 'pick-up.range'],
    ['more than a million', () => agentGramsFor(2e6, { method: 'mixed-in', greenGrams: 1 }), 'ppm.range'],
  ])('refuses %s', (_, run, code) => expect(run).toThrow(expect.objectContaining({ code }))); // prettier-ignore

  it('takes the pick-up from two weights', () => expect(pickUpOf(1200, 1320)).toBeCloseTo(0.1, 12));
});

describe('a cure by its packet', () => {
  it('names a missing strength, a percentage typed for a fraction, and one that no packet has', () => {
    const codes = (mix: Parameters<typeof strengthFindings>[0]) =>
      strengthFindings(mix).map(({ code }) => code);
    expect(codes(PINK)).toEqual([]);
    expect(codes({ ...PINK, nitrite: null })).toEqual(['cure.strength-missing']);
    expect(codes({ ...PINK, nitrite: 6.25 })).toEqual(['cure.strength-percent']);
    // 0.40 % typed as 0.40.
    expect(codes({ ...PINK, nitrite: 0.4 })).toEqual(['cure.strength-unlikely']);
    expect(codes({ ...PINK, nitrite: 1 })).toEqual([]);
    expect(codes({ ...NUMBER_TWO, nitrate: null, accelerator: 55 })).toEqual([
      'cure.strength-missing',
      'cure.strength-percent',
    ]);
  });

  it('refuses to compute with a strength that is missing, a percentage or negative', () => {
    for (const [nitrite, code] of [[null, 'cure.strength-missing'], [6.25, 'cure.strength-percent'], [-0.1, 'share.out-of-range'], [NaN, 'number.not-finite']] as const)
      expect(() => agentGramsIn({ ...PINK, nitrite }, 'nitrite', 1)).toThrow(expect.objectContaining({ code }));
  }); // prettier-ignore

  it('counts what is no agent as salt unless the packet says otherwise', () => {
    expect(saltGramsIn(NUMBER_TWO, 100)).toBeCloseTo(89.75, 12);
    expect(saltGramsIn({ ...PINK, salt: 0.5 }, 100)).toBe(50);
  });

  it('exchanges the two salts of nitrite by their molar masses', () => {
    expect(asPotassium(120)).toBeCloseTo(148, 1);
    expect(asSodium(asPotassium(77))).toBeCloseTo(77, 12);
  });
});
