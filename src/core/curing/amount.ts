/** Amounts to weigh: by the small scale's step, a cure never rounded up. */
import { decimalsOf, roundToStep } from '../values/units.ts';
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import { agentGramsFor, type Application } from './ingoing.ts';
import type { Agent } from './limits.ts';
import { agentGramsIn, type CureMix } from './mix.ts';

/**
 * What rounding may change of an amount before its scale is too coarse: 5 % of a cure, and 10 % of what is weighed for its taste.
 * Common practice, no source.
 */
const MOST_OFF = { down: 0.05, nearest: 0.1 } as const;

/**
 * The largest whole number of steps not above `grams`, with the decimals of the step.
 * @throws ValidationError `number.not-finite`, `grams.negative`, `step.not-positive`
 * @example roundDownToStep(113.398, 0.5) // 113
 */
export function roundDownToStep(grams: number, step: number): number {
  if (requireFinite(grams, 'grams') < 0) throw new ValidationError('grams.negative', 'grams', { grams });
  if (!(requireFinite(step, 'step') > 0)) throw new ValidationError('step.not-positive', 'step', { step });
  const steps = grams / step;
  // 0.3 / 0.1 is a hair below 3.
  const whole = Math.floor(steps + Number.EPSILON * 4 * Math.max(1, steps));
  return Number((whole * step).toFixed(decimalsOf(step)));
}

/** An amount as computed, as it is to be weighed, and whether the scale is fine enough for it. */
export interface AmountToWeigh {
  readonly exactGrams: number;
  readonly grams: number;
  /** Rounding may change more of it than `MOST_OFF`: weigh it on a finer scale. */
  readonly tooFine: boolean;
}

/** @throws ValidationError those of `roundDownToStep` */
export function amountToWeigh(exactGrams: number, step: number, rounding: 'down' | 'nearest'): AmountToWeigh {
  const down = roundDownToStep(exactGrams, step);
  const grams = rounding === 'down' ? down : roundToStep(exactGrams, step);
  const off = rounding === 'down' ? step : step / 2;
  return { exactGrams, grams, tooFine: exactGrams > 0 && off > MOST_OFF[rounding] * exactGrams };
}

/**
 * The cure for a wanted ppm: strength from the packet, weight of the meat as weighed, rounded down to the step.
 * @throws ValidationError those of `agentGramsFor`, `agentGramsIn` and `roundDownToStep`; `cure.without-agent` (strength 0)
 * @example
 * cureFor(156.25, 'nitrite', { id: 'pink', nitrite: 0.0625, nitrate: 0, accelerator: 0 },
 *   { method: 'mixed-in', greenGrams: 45_359.237 }, 1).grams // 113, of 113.398
 */
export function cureFor(
  ppm: number,
  agent: Agent,
  mix: CureMix,
  application: Application,
  step: number,
): AmountToWeigh {
  const strength = agentGramsIn(mix, agent, 1);
  if (strength === 0) throw new ValidationError('cure.without-agent', `${mix.id}.${agent}`);
  return amountToWeigh(agentGramsFor(ppm, application) / strength, step, 'down');
}
