/**
 * Ingoing parts per million on the green weight: the meat, fat and by-products before anything is added, never the finished weight and
 * never with water, binder or spice (Processing Inspectors' Calculations Handbook, FSIS Directive 7620.3, 1995, chapter 3, second-hand).
 */
import { MAX_READING_GRAMS } from '../values/reading.ts';
import { requireFinite, ValidationError } from '../values/validation-error.ts';

/** How the agent gets into the meat, with the weights that its formula needs. Masses in grams, `pickUp` as a fraction. */
export type Application =
  | { readonly method: 'mixed-in'; readonly greenGrams: number }
  | { readonly method: 'pumped'; readonly pickleGrams: number; readonly pickUp: number }
  | {
      readonly method: 'immersed';
      readonly by: 'pick-up';
      readonly pickleGrams: number;
      readonly pickUp: number;
    }
  | {
      readonly method: 'immersed';
      readonly by: 'equilibrium';
      readonly pickleGrams: number;
      readonly greenGrams: number;
    }
  | { readonly method: 'rubbed'; readonly greenGrams: number; readonly skinOn?: boolean };

/** A belly with its skin on counts as so much of its weight (handbook pp. 24–31, second-hand). */
const SKIN_ON_SHARE = 0.9;
export const MILLION = 1e6;

/**
 * The weight over which the whole of an agent counts as spread, g. Massaged meat counts as pumped. Immersion has two accepted
 * methods that differ several times over: the one that was used belongs to the record.
 * @throws ValidationError `grams.not-positive`, `grams.too-heavy`, `number.not-finite`, `pick-up.range` (0 or below),
 *   `pick-up.percent` (above 1: a percentage was typed)
 */
export function baseGrams(application: Application): number {
  switch (application.method) {
    case 'mixed-in':
      return grams(application.greenGrams, 'greenGrams');
    case 'rubbed':
      return grams(application.greenGrams, 'greenGrams') * (application.skinOn ? SKIN_ON_SHARE : 1);
    case 'pumped':
      return byPickUp(application);
    case 'immersed':
      return application.by === 'pick-up'
        ? byPickUp(application)
        : grams(application.greenGrams, 'greenGrams') + grams(application.pickleGrams, 'pickleGrams');
  }
}

/**
 * Ingoing ppm of so many grams of the pure agent (nitrite, not cure).
 * @throws ValidationError those of `baseGrams`; `grams.negative`
 * @example ingoingPpm(7.0874, { method: 'mixed-in', greenGrams: 45_359.237 }) // 156.25: a quarter of an ounce in 100 lb
 */
export function ingoingPpm(agentGrams: number, application: Application): number {
  if (requireFinite(agentGrams, 'agentGrams') < 0)
    throw new ValidationError('grams.negative', 'agentGrams', { grams: agentGrams });
  return (agentGrams * MILLION) / baseGrams(application);
}

/**
 * Grams of the pure agent that give so many ppm: `ingoingPpm` solved for them.
 * @throws ValidationError those of `baseGrams`; `ppm.range`
 */
export function agentGramsFor(ppm: number, application: Application): number {
  if (!(ppm >= 0 && ppm <= MILLION)) throw new ValidationError('ppm.range', 'ppm', { ppm });
  return (ppm * baseGrams(application)) / MILLION;
}

/**
 * The share that pumping or soaking added: (after − green) ÷ green.
 * @throws ValidationError `grams.not-positive`, `pick-up.range` (no heavier than before), `pick-up.percent` (more than doubled)
 * @example pickUpOf(1000, 1100) // 0.1
 */
export function pickUpOf(greenGrams: number, afterGrams: number): number {
  const green = grams(greenGrams, 'greenGrams');
  return pickUpShare((grams(afterGrams, 'afterGrams') - green) / green);
}

function byPickUp({ pickleGrams, pickUp }: { pickleGrams: number; pickUp: number }): number {
  return grams(pickleGrams, 'pickleGrams') / pickUpShare(pickUp);
}

function pickUpShare(pickUp: number): number {
  if (requireFinite(pickUp, 'pickUp') <= 0) throw new ValidationError('pick-up.range', 'pickUp', { pickUp });
  if (pickUp > 1) throw new ValidationError('pick-up.percent', 'pickUp', { pickUp });
  return pickUp;
}

function grams(value: number, field: string): number {
  if (requireFinite(value, field) <= 0)
    throw new ValidationError('grams.not-positive', field, { grams: value });
  if (value > MAX_READING_GRAMS) throw new ValidationError('grams.too-heavy', field, { grams: value });
  return value;
}
