/**
 * Yields held against published figures that ours were not taken from. What ours were taken from stands in `copied.ts`: that a
 * first guess agrees with its own source shows nothing.
 */
import { FIRST_DAY } from '../../../src/core/cold/shrink-prior.ts';
import type { PublishedResult } from '../result.ts';
import { hangingShare, partOfHanging, profileOf } from './profiles.ts';

/** Mean take-home of a donated deer of typical weight, kg. */
const venison = (share: number): number => (profileOf('white-tail').hangingGrams.typical / 1000) * share;

export const yields: readonly PublishedResult[] = [
  {
    name: 'field-dressed with its legs on to hanging, deer',
    source: '"Preisfindung Wildbret", jung-jaeger.eu and parey-jagdausbildung.de: one roe buck weighed part by part',
    basis: 'computed',
    note: '12.81 of 16.00 kg; a proxy of one animal, read second-hand. Ours is live to hanging over live to dressed',
    expected: 12.81 / 16,
    ours: () => hangingShare('white-tail', 'dressed'),
    near: { within: 0.03 },
    mistake: { what: 'the ratio for legs off', gives: 0.845 },
  },
  {
    name: 'live to hanging, deer: farmed fallow at 18 and 30 months, on pasture and fed',
    source: 'Meat Science 60:427-432, 2002, doi 10.1016/S0309-1740(01)00156-5: 32 fallow bucks',
    basis: 'stated',
    note: 'a proxy',
    expected: [0.577, 0.609, 0.572, 0.615],
    ours: () => Array.from({ length: 4 }, () => hangingShare('white-tail', 'live')),
    near: { within: 0.025 },
    mistake: { what: 'dressed with legs on, then hanging as if they were off', gives: Array.from({ length: 4 }, () => 0.76 * 0.845) },
  },
  {
    name: 'boneless of hanging, elk: first-class lean of red deer',
    source: 'Kay et al., J. Agric. Sci., Carcass characteristics of young red deer farmed on hill pasture (abstract)',
    basis: 'computed',
    note: '0.32 of live weight over a dressing of 0.52; a proxy, without shot damage',
    expected: 0.32 / 0.52,
    ours: () => partOfHanging('elk', 'takeHome'),
    near: { within: 0.04 },
    mistake: { what: 'the share of quarters', gives: profileOf('elk').takeHomeOfQuarters.mean },
  },
  {
    name: 'kg of venison from a donated white-tail',
    source: 'Pennsylvania’s venison donations of 2022-23: over 235,000 lb from more than 6,200 deer',
    basis: 'computed',
    note: 'both figures are rounded; our typical weight was taken from another state’s donations',
    expected: (235_000 * 0.45359237) / 6200,
    ours: () => venison(partOfHanging('white-tail', 'takeHome')),
    near: { within: 1.5 },
    mistake: { what: 'the share of quarters', gives: venison(profileOf('white-tail').takeHomeOfQuarters.mean) },
  },
  {
    name: 'moose: shot damage and the first day’s chilling together, share of the fresh carcass',
    source: 'Hawley, Sylvén & Wilhelmson, Livest. Prod. Sci. 10:507, 1983, doi 10.1016/0301-6226(83)90077-5 (abstract)',
    basis: 'stated',
    note: 'our damage is from another study, of another continent',
    expected: 0.1,
    ours: () => partOfHanging('moose', 'damage') + FIRST_DAY.mean,
    near: { within: 0.02 },
    mistake: { what: 'half of the damage that hunters’ animals have', gives: 0.04 + 0.017 },
  },
]; // prettier-ignore
