/** Divides what came out of a pooled batch among its owners by what each put in, exactly on the step of the scale. */
import { apportion } from '../values/apportion.ts';
import { splitRows } from '../values/split.ts';
import { requireFinite, ValidationError } from '../values/validation-error.ts';

/** A weight that is this near a whole number of steps is one: what binary fractions leave of a tenth of a pound. */
const STEP_TOLERANCE = 1e-6;

export interface OwnerShare {
  /** Whole steps of the scale: their sum is exactly that of the batch. */
  readonly steps: number;
  readonly grams: number;
}

/**
 * By largest remainders; equal claims go to the first. Who put in nothing gets nothing.
 * @param inputs grams of each owner's meat in the batch
 * @throws ValidationError `share.not-on-step` (the output is no whole number of steps), `step.not-positive`, `grams.negative`, and those
 *   of `apportion`
 * @example shareOutput(1000, 100, [2, 1]).map(({ steps }) => steps) // [7, 3]
 */
export function shareOutput(outGrams: number, stepGrams: number, inputs: readonly number[]): OwnerShare[] {
  const total = wholeSteps(outGrams, stepGrams, 'outGrams');
  return apportion(total, inputs).map((steps) => ({ steps, grams: steps * stepGrams }));
}

/**
 * Several finished products of one block: each is divided exactly, and what one rounds away from an owner the next makes up for.
 * @returns for each product the owners' shares in their order
 * @throws ValidationError as `shareOutput`
 */
export function shareProducts(
  outGrams: readonly number[],
  stepGrams: number,
  inputs: readonly number[],
): OwnerShare[][] {
  const steps = outGrams.map((grams, i) => wholeSteps(grams, stepGrams, `outGrams[${i}]`));
  return splitRows(steps, inputs).map((row) => row.map((one) => ({ steps: one, grams: one * stepGrams })));
}

function wholeSteps(grams: number, stepGrams: number, field: string): number {
  if (!(requireFinite(stepGrams, 'stepGrams') > 0))
    throw new ValidationError('step.not-positive', 'stepGrams', { step: stepGrams });
  if (requireFinite(grams, field) < 0) throw new ValidationError('grams.negative', field, { grams });
  const steps = Math.round(grams / stepGrams);
  if (Math.abs(grams / stepGrams - steps) > STEP_TOLERANCE)
    throw new ValidationError('share.not-on-step', field, { grams, step: stepGrams });
  return steps;
}
